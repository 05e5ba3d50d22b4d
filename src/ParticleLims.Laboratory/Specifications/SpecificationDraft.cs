using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>One limit as its author writes it.</summary>
public sealed record LimitDraft(LimitCharacteristic Characteristic, decimal? Lower, decimal? Upper, int Digits, Aperture? Aperture = null, decimal? Percent = null, bool Printed = true,
    LimitRule Rule = LimitRule.Simple, decimal GuardFactor = 1m)
{
    /// <summary>A value below it conforms and is looked into; null for none.</summary>
    public decimal? LowerAlert { get; init; }

    /// <summary>A value above it conforms and is looked into; null for none.</summary>
    public decimal? UpperAlert { get; init; }

    /// <summary>The most by which the determinations of one result may differ, in the unit of the bounds; null asks nothing.</summary>
    public decimal? GreatestSpread { get; init; }

    /// <summary>The limit as it stands in a version.</summary>
    internal Limit ToLimit(Guid versionId, int position) => new()
    {
        SpecificationVersionId = versionId, Position = position, Characteristic = Characteristic, Aperture = Aperture, Percent = Percent,
        Lower = Lower, Upper = Upper, LowerAlert = LowerAlert, UpperAlert = UpperAlert, GreatestSpread = GreatestSpread, Digits = Digits, Rule = Rule, GuardFactor = GuardFactor, Printed = Printed,
    };
}

/// <summary>What a version of a specification says.</summary>
public sealed record SpecificationDraft(IReadOnlyList<LimitDraft> Limits, string WhatChanged = "First version")
{
    /// <summary>The most determinations that make one result.</summary>
    public const int MostDeterminations = 10;

    /// <summary>So many determinations make one result; null: as many as the method asks for.</summary>
    public int? Determinations { get; init; }

    /// <summary>How they are combined.</summary>
    public Combination Combination { get; init; }

    /// <summary>How the lot is sampled; null where the specification says nothing of it.</summary>
    public SamplingPlan? Sampling { get; init; }

    /// <summary>Refuses, in words, a limit that says nothing or contradicts itself.</summary>
    /// <exception cref="RefusedException">Says which limit and why.</exception>
    public void Check()
    {
        if (Limits.Count is 0 or > 60)
        {
            throw new RefusedException("specification", "A specification has 1 to 60 limits.", "limits");
        }

        for (var index = 0; index < Limits.Count; index++)
        {
            Check(Limits[index], $"limits[{index}]");
        }

        if (Determinations is < 1 or > MostDeterminations || !Enum.IsDefined(Combination))
        {
            throw new RefusedException("specification", "One result is made of 1 to 10 determinations.", "determinations");
        }

        Sampling?.Check();
    }

    internal SpecificationVersion ToVersion(DeedScope scope, Guid specificationId, int number)
    {
        Check();
        var version = new SpecificationVersion
        {
            Id = scope.NewId(), DocumentId = specificationId, Number = number, AuthorId = scope.PersonId, AuthorName = scope.By.Name, WrittenAt = scope.Now, WhatChanged = WhatChanged.Trim(),
            Determinations = Determinations, Combination = Combination, Sampling = Sampling?.Trimmed(),
        };
        version.Limits.AddRange(Limits.Select((limit, index) => limit.ToLimit(version.Id, index + 1)));
        return version;
    }

    private static void Check(LimitDraft limit, string member)
    {
        var share = limit.Characteristic is LimitCharacteristic.Passing or LimitCharacteristic.Retained;
        Require(limit.Lower is not null || limit.Upper is not null, member, "A limit has a lower bound, an upper bound or both.");
        Require(!(limit.Lower > limit.Upper), member, "The lower bound is not above the upper bound.");
        Require(Enum.IsDefined(limit.Rule) && limit.GuardFactor is >= 0m and <= 10m, member, "A guard band is between 0 and 10 times the expanded uncertainty.");
        Require(limit.Digits is >= 0 and <= 6, member, "A limit shows 0 to 6 decimals.");
        Require(share == limit.Aperture is not null, member, "Passing and retained name an aperture; nothing else does.");
        Require(limit.Characteristic == LimitCharacteristic.Percentile == limit.Percent is not null, member, "A percentile names its percentage; nothing else does.");
        Require(limit.Percent is null or (> 0m and < 100m), member, "The percentage of a percentile lies between 0 and 100 %, both excluded.");
        Require(!share || (limit.Lower is null or (>= 0m and <= 100m) && limit.Upper is null or (>= 0m and <= 100m)), member, "Bounds of passing and retained lie between 0 and 100 %.");
        Require(IsInside(limit.LowerAlert, limit) && IsInside(limit.UpperAlert, limit), member, "An alert limit lies inside the bounds: above the lower one and below the upper one.");
        Require(!(limit.LowerAlert >= limit.UpperAlert), member, "The lower alert limit lies below the upper one.");
        Require(limit.GreatestSpread is null or > 0m && !(share && limit.GreatestSpread > 100m), member, "Determinations may differ by more than 0, and by at most 100 percentage points.");
        Require(share || ((limit.Lower ?? 0m) >= 0m && (limit.Upper ?? 1m) > 0m), member, "Bounds of sizes, spans and slopes are not negative.");
    }

    // Inside what is possible too: no share lies below 0 or above 100 %, no size below 0.
    private static bool IsInside(decimal? alert, LimitDraft limit) =>
        alert is not { } value || (value > 0m && !(value <= limit.Lower) && !(value >= limit.Upper) && (limit.Characteristic is not (LimitCharacteristic.Passing or LimitCharacteristic.Retained) || value < 100m));

    private static void Require(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("limit", words, member);
        }
    }
}

using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>One limit as its author writes it.</summary>
public sealed record LimitDraft(LimitCharacteristic Characteristic, decimal? Lower, decimal? Upper, int Digits, Aperture? Aperture = null, decimal? Percent = null, bool Printed = true,
    LimitRule Rule = LimitRule.Simple, decimal GuardFactor = 1m)
{
    /// <summary>The limit as it stands in a version.</summary>
    internal Limit ToLimit(Guid versionId, int position) => new()
    {
        SpecificationVersionId = versionId, Position = position, Characteristic = Characteristic, Aperture = Aperture, Percent = Percent,
        Lower = Lower, Upper = Upper, Digits = Digits, Rule = Rule, GuardFactor = GuardFactor, Printed = Printed,
    };
}

/// <summary>What a version of a specification says.</summary>
public sealed record SpecificationDraft(IReadOnlyList<LimitDraft> Limits, string WhatChanged = "First version")
{
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
    }

    internal SpecificationVersion ToVersion(DeedScope scope, Guid specificationId, int number)
    {
        Check();
        var version = new SpecificationVersion
        {
            Id = scope.NewId(), DocumentId = specificationId, Number = number, AuthorId = scope.PersonId, AuthorName = scope.By.Name, WrittenAt = scope.Now, WhatChanged = WhatChanged.Trim(),
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
        Require(share || ((limit.Lower ?? 0m) >= 0m && (limit.Upper ?? 1m) > 0m), member, "Bounds of sizes, spans and slopes are not negative.");
    }

    private static void Require(bool holds, string member, string words)
    {
        if (!holds)
        {
            throw new RefusedException("limit", words, member);
        }
    }
}

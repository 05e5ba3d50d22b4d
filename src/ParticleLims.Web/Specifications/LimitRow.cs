using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Web.Specifications;

/// <summary>A limit as it stands in the editor, in the units that people type.</summary>
public sealed class LimitRow
{
    public static IReadOnlyList<LimitCharacteristic> Characteristics { get; } = Enum.GetValues<LimitCharacteristic>();
    public static IReadOnlyList<LimitRule> Rules { get; } = Enum.GetValues<LimitRule>();

    /// <summary>The place in <see cref="Characteristics"/>.</summary>
    public int Chosen { get; set; }

    /// <summary>In µm.</summary>
    public decimal? Aperture { get; set; }

    /// <summary>In percent passing.</summary>
    public decimal? Percent { get; set; }
    public decimal? Lower { get; set; }
    public decimal? Upper { get; set; }

    /// <summary>A value below it conforms and is looked into.</summary>
    public decimal? LowerAlert { get; set; }

    /// <summary>A value above it conforms and is looked into.</summary>
    public decimal? UpperAlert { get; set; }

    /// <summary>The most by which determinations may differ.</summary>
    public decimal? GreatestSpread { get; set; }
    public decimal? Digits { get; set; } = 1;
    public bool Printed { get; set; } = true;

    /// <summary>The place in <see cref="Rules"/>.</summary>
    public int Rule { get; set; }

    /// <summary>A multiple of the expanded uncertainty.</summary>
    public decimal? GuardFactor { get; set; } = 1;

    public LimitCharacteristic Characteristic => Characteristics[Chosen];
    public bool NeedsAperture => Characteristic is LimitCharacteristic.Passing or LimitCharacteristic.Retained;
    public bool HasGuardBand => Rules[Rule] != LimitRule.Simple;
    public bool NeedsPercent => Characteristic == LimitCharacteristic.Percentile;

    /// <summary>Whether everything is there that a limit needs.</summary>
    public bool IsComplete => Digits is not null && (!NeedsAperture || Aperture is > 0m) && (!NeedsPercent || Percent is not null) && (!HasGuardBand || GuardFactor is not null);

    public string? Unit => Characteristic switch
    {
        LimitCharacteristic.Passing or LimitCharacteristic.Retained => "%",
        LimitCharacteristic.Percentile or LimitCharacteristic.RosinRammlerSize => "µm",
        LimitCharacteristic.SpecificSurface => "m²/g",
        _ => null,
    };

    public static LimitRow Of(Limit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        return new LimitRow
        {
            Chosen = (int)limit.Characteristic, Aperture = limit.Aperture?.Micrometres, Percent = limit.Percent, Lower = limit.Lower, Upper = limit.Upper, Digits = limit.Digits, Printed = limit.Printed,
            Rule = Array.IndexOf(Enum.GetValues<LimitRule>(), limit.Rule), GuardFactor = limit.GuardFactor,
            LowerAlert = limit.LowerAlert, UpperAlert = limit.UpperAlert, GreatestSpread = limit.GreatestSpread,
        };
    }

    public LimitDraft Draft() => new(
        Characteristic, Lower, Upper, (int)Digits!.Value, NeedsAperture ? Analysis.Quantities.Aperture.FromMicrometres(Aperture!.Value) : null, NeedsPercent ? Percent : null, Printed,
        Rules[Rule], HasGuardBand ? GuardFactor!.Value : 1m)
    {
        LowerAlert = LowerAlert, UpperAlert = UpperAlert, GreatestSpread = GreatestSpread,
    };

    public static string Words(LimitRule rule) => rule switch
    {
        LimitRule.Simple => "simple acceptance",
        LimitRule.Guarded => "guarded acceptance",
        LimitRule.FourState => "four states",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a decision rule."),
    };

    public static string Words(LimitCharacteristic characteristic) => characteristic switch
    {
        LimitCharacteristic.Passing => "passing at an aperture",
        LimitCharacteristic.Retained => "retained on an aperture",
        LimitCharacteristic.Percentile => "percentile Dq",
        LimitCharacteristic.Span => "span (D90 - D10) / D50",
        LimitCharacteristic.RosinRammlerSlope => "Rosin-Rammler slope n",
        LimitCharacteristic.RosinRammlerSize => "Rosin-Rammler size x′",
        LimitCharacteristic.SpecificSurface => "specific surface",
        _ => throw new ArgumentOutOfRangeException(nameof(characteristic), characteristic, "Not a characteristic."),
    };
}

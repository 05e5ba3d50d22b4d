using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Uncertainty;

namespace ParticleLims.Analysis.Conformity;

/// <summary>A value held against one limit.</summary>
public sealed record LimitVerdict
{
    /// <summary>The limit's place in the request, from 0.</summary>
    public required int Limit { get; init; }

    /// <summary>The unrounded value in the characteristic's unit; null where there is none. With another relation than equal, a bound.</summary>
    public double? Value { get; init; }

    /// <summary>Whether the value is this, below it or above it.</summary>
    public Relation Relation { get; init; }

    /// <summary>The value with the limit's decimals; a bound is rounded to the side on which it stays true. Null where there is no value.</summary>
    public string? Rounded { get; init; }

    /// <summary>The expanded uncertainty U of the value in the characteristic's unit; null where there is no value or no uncertainty.</summary>
    public double? ExpandedUncertainty { get; init; }

    /// <summary>The least value accepted, the lower bound and the guard band, in the characteristic's unit; null without a lower bound or an uncertainty.</summary>
    public double? AcceptanceLower { get; init; }

    /// <summary>The greatest value accepted, the upper bound less the guard band, in the characteristic's unit; null without an upper bound or an uncertainty.</summary>
    public double? AcceptanceUpper { get; init; }

    /// <summary>The probability, from 0 to 1, that the true value lies within the limits (JCGM 106:2012, clause 7); null where there is no value or no uncertainty.</summary>
    public double? ProbabilityOfConformity { get; init; }

    /// <summary>The uncertainty of the value with its budget; null where none was evaluated.</summary>
    public CharacteristicUncertainty? Uncertainty { get; init; }

    /// <summary>The verdict on the unrounded value.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>The verdict a reader of the rounded value would give; it may differ next to a limit.</summary>
    public required Verdict VerdictAsRounded { get; init; }
}

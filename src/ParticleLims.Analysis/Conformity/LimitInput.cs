using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>A limit of a specification: a characteristic with a lower bound, an upper bound or both.</summary>
public sealed record LimitInput
{
    /// <summary>What it speaks of.</summary>
    public required Characteristic Characteristic { get; init; }

    /// <summary>Which percentile, in percent between 0 and 100 %. Only for <see cref="Characteristic.Percentile"/>, and needed there.</summary>
    public decimal? Percent { get; init; }

    /// <summary>Which aperture. Only for passing and retained, and needed there.</summary>
    public Aperture? Aperture { get; init; }

    /// <summary>The lower bound in the characteristic's unit (µm, % or none); null for none.</summary>
    public decimal? Lower { get; init; }

    /// <summary>The upper bound in the characteristic's unit (µm, % or none); null for none.</summary>
    public decimal? Upper { get; init; }

    /// <summary>The decimals shown, from 0 to 9; 1 by default.</summary>
    public int Digits { get; init; } = 1;

    /// <summary>The decision rule.</summary>
    public DecisionRule Rule { get; init; } = DecisionRule.Simple;

    /// <summary>The guard band as a multiple of the expanded uncertainty; has a meaning only for the guarded rules.</summary>
    public decimal GuardFactor { get; init; } = 1m;

    /// <summary>
    /// The method's repeatability limit r in the characteristic's unit: replicates that span more give no result
    /// (ISO 5725-6:1994, 5.2). Null for none. Only for replicates.
    /// </summary>
    public decimal? RepeatabilityLimit { get; init; }
}

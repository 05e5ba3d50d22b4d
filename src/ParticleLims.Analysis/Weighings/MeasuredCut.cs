using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>What was measured at one aperture. The percentages are exact; they are not made monotone.</summary>
public sealed record MeasuredCut
{
    /// <summary>The nominal aperture.</summary>
    public required Aperture Aperture { get; init; }

    /// <summary>The aperture the evaluation used: the nominal one, or the effective one where the settings say so.</summary>
    public required Aperture UsedAperture { get; init; }

    /// <summary>The mass that is 100 % at this cut; null for a given distribution.</summary>
    public Mass? Portion { get; init; }

    /// <summary>The mass left on the sieve, within the possible range; null for a given distribution.</summary>
    public Mass? Residue { get; init; }

    /// <summary>R, the cumulative percentage that does not pass this aperture, exactly (ISO 9276-1: 1 - Q3).</summary>
    public required Ratio RetainedPercent { get; init; }

    /// <summary>The standard uncertainty of the percentage passing, in percent; null where none is known.</summary>
    public double? PassingStandardUncertaintyPercent { get; init; }

    /// <summary>Q3, the cumulative percentage that passes this aperture, exactly (ISO 9276-1).</summary>
    public Ratio PassingPercent => Ratio.Hundred - RetainedPercent;
}

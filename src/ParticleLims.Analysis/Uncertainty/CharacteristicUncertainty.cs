namespace ParticleLims.Analysis.Uncertainty;

/// <summary>The uncertainty of one characteristic, in the characteristic's unit (µm, %, m²/g or none).</summary>
public sealed record CharacteristicUncertainty
{
    /// <summary>The combined standard uncertainty u, in the characteristic's unit.</summary>
    public required double StandardUncertainty { get; init; }

    /// <summary>The expanded uncertainty U, in the characteristic's unit: half the width of the interval.</summary>
    public required double Expanded { get; init; }

    /// <summary>The lower end of the coverage interval, in the characteristic's unit.</summary>
    public required double Low { get; init; }

    /// <summary>The upper end of the coverage interval, in the characteristic's unit.</summary>
    public required double High { get; init; }

    /// <summary>The budget by the law of propagation, in the order of the cuts; empty where nothing contributes.</summary>
    public required IReadOnlyList<BudgetEntry> Budget { get; init; }

    /// <summary>The part of u that the apertures make, in the characteristic's unit: replicates on the same sieves share it, so their mean does not make it smaller.</summary>
    public required double SharedStandardUncertainty { get; init; }

    /// <summary>The probability in percent that a size lies below the finest aperture, where the trials end and the analytic interval runs on as if the curve did; 0 for what is no size.</summary>
    public required double BelowFinestPercent { get; init; }

    /// <summary>The probability in percent that a size lies above the coarsest aperture; 0 for what is no size.</summary>
    public required double AboveCoarsestPercent { get; init; }

    /// <summary>What the trials found, and whether the law of propagation agrees with them; null for the analytic method.</summary>
    public TrialComparison? Trials { get; init; }
}

using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>The numbers that follow from a request.</summary>
public sealed record EvaluationResult
{
    /// <summary>The engine's version, <see cref="Analysis.Engine.Version"/>.</summary>
    public required string Engine { get; init; }

    /// <summary>What was measured, finest aperture first.</summary>
    public required IReadOnlyList<MeasuredCut> Cuts { get; init; }

    /// <summary>The shares between the apertures, finest first, with both open ends.</summary>
    public required IReadOnlyList<SizeClass> Fractions { get; init; }

    /// <summary>What was found again in percent of the test portion, exactly; null where it was not weighed.</summary>
    public Ratio? RecoveryPercent { get; init; }

    /// <summary>What was lost between the sieves, where a carried residue was weighed again; else empty.</summary>
    public required IReadOnlyList<TransferLoss> TransferLosses { get; init; }

    /// <summary>The percentiles asked for, in the order asked.</summary>
    public required IReadOnlyList<Percentile> Percentiles { get; init; }

    /// <summary>(D90 - D10) / D50.</summary>
    public required Span Span { get; init; }

    /// <summary>The curve from which the percentiles come.</summary>
    public required DistributionCurve Curve { get; init; }

    /// <summary>Mode, coefficients, means, moments, surface and fineness; null for an evaluation repeated as version 1.0.0.</summary>
    public DistributionSummary? Summary { get; init; }

    /// <summary>The models that could be fitted; for each the straight line first, Rosin-Rammler first of all.</summary>
    public required IReadOnlyList<FittedModel> Models { get; init; }

    /// <summary>Notes and findings, no refusal.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>One verdict for each limit, in the order of the request.</summary>
    public required IReadOnlyList<LimitVerdict> Verdicts { get; init; }

    /// <summary>
    /// The uncertainty of each percentile with its budget, in the order of <see cref="Percentiles"/>, in micrometres (µm); null for a size outside the measured apertures. Empty where none were
    /// asked for.
    /// </summary>
    public IReadOnlyList<CharacteristicUncertainty?> PercentileUncertainties { get; init; } = [];

    /// <summary>How the uncertainties were evaluated; null where none were asked for.</summary>
    public UncertaintyStatement? Uncertainty { get; init; }

    /// <summary>From which the uncertainty of any further characteristic follows; null where none were asked for.</summary>
    internal UncertaintyEvaluation? Evaluation { get; init; }

    /// <summary>
    /// Every number of the result as text: masses in µg, apertures in nm, exact fractions, doubles so that they read back to the same bits.
    /// Two evaluations agree bit for bit if and only if these texts are the same. The words of the findings are not part of it.
    /// </summary>
    public string ToCanonicalText() => CanonicalText.Of(this);
}

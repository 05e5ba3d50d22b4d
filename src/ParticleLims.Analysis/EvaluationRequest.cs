using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Everything an evaluation needs; nothing else enters it.</summary>
public sealed record EvaluationRequest
{
    /// <summary>How the powder met the sieves.</summary>
    public required Procedure Procedure { get; init; }

    /// <summary>The cuts in any order, 1 to 100 of them, each with another aperture.</summary>
    public required IReadOnlyList<CutInput> Cuts { get; init; }

    /// <summary>What was put on a nested stack, m0; needed there only if it is the basis.</summary>
    public Mass? Portion { get; init; }

    /// <summary>The receiver of a nested stack; needed there only if the sum of the fractions is the basis.</summary>
    public ReceiverInput? Receiver { get; init; }

    /// <summary>The fines weighed in a collector behind an air jet, over the whole run.</summary>
    public Mass? Collected { get; init; }

    /// <summary>
    /// The standard uncertainty u_w of one weighing, which says how large a gain the weighings themselves explain; see
    /// <see cref="WeighingUncertainty"/>. Null counts as zero: then every gain is refused.
    /// </summary>
    public Mass? WeighingStandardUncertainty { get; init; }

    /// <summary>The method's choices.</summary>
    public EvaluationSettings Settings { get; init; } = new();

    /// <summary>For a full uncertainty evaluation. Not available yet.</summary>
    public UncertaintyInput? Uncertainty { get; init; }

    /// <summary>The limits to judge, at most 200.</summary>
    public IReadOnlyList<LimitInput> Limits { get; init; } = [];
}

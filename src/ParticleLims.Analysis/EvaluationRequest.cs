using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
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
    /// <see cref="WeighingUncertainty"/>. Null: that of <see cref="Uncertainty"/>, and without it zero, so that every gain is refused.
    /// </summary>
    public Mass? WeighingStandardUncertainty { get; init; }

    /// <summary>The method's choices.</summary>
    public EvaluationSettings Settings { get; init; } = new();

    /// <summary>What the uncertainties start from. Null: the result has none, and limits are judged by simple acceptance only.</summary>
    public UncertaintyInput? Uncertainty { get; init; }

    /// <summary>The limits to judge, at most 200.</summary>
    public IReadOnlyList<LimitInput> Limits { get; init; } = [];

    /// <summary>What a gain is held against.</summary>
    internal Mass GainUncertainty => WeighingStandardUncertainty
        ?? (Uncertainty is { } input ? WeighingUncertainty.Of(input.BalanceRepeatability, input.Readability, input.Linearity) : Mass.Zero);
}

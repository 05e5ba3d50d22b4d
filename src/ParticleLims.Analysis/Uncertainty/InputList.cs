using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>
/// The independent inputs of a run (docs/science/uncertainty-inputs.md) and where each stands in the list. A tare that is used twice is one input; what has no uncertainty is none (place -1).
/// </summary>
internal sealed class InputList
{
    private const double SqrtThree = 1.7320508075688772;
    private readonly List<UncertainInput> _inputs = [];
    private readonly bool _putsBack;

    public InputList(EvaluationRequest request, UncertaintyInput uncertainty, IReadOnlyList<OrderedCut> cuts)
    {
        Weighing = new WeighingError(uncertainty);
        _putsBack = request.Procedure == Procedure.CarriedResidue && request.Settings.TransferLoss == TransferLossRule.PutBackInProportion;
        Places = new CutPlaces[cuts.Count];
        for (var i = 0; i < cuts.Count; i++)
        {
            Places[i] = Place(request, uncertainty, cuts[i], i);
        }

        if (request.Procedure == Procedure.NestedStack)
        {
            ReceiverEmpty = request.Receiver is null ? -1 : Add(InputKind.EmptyReceiver, -1, null, Weighing.StandardUncertainty);
            ReceiverAfter = request.Receiver is null ? -1 : Add(InputKind.ReceiverAfterSieving, -1, null, Weighing.StandardUncertainty);
            Portion = request.Settings.Basis == PercentBasis.Portion ? Add(InputKind.TestPortion, -1, null, Weighing.StandardUncertainty) : -1;
        }
    }

    public IReadOnlyList<UncertainInput> Inputs => _inputs;

    public WeighingError Weighing { get; }

    /// <summary>Of each cut, finest first.</summary>
    public CutPlaces[] Places { get; }

    public int ReceiverEmpty { get; } = -1;

    public int ReceiverAfter { get; } = -1;

    public int Portion { get; } = -1;

    /// <summary>Whether the percentages of a cut hang on a loss that was put back, on this sieve or a finer one.</summary>
    public bool PutsBack(int cut)
    {
        for (var i = 1; i <= cut; i++)
        {
            if (Places[i].Loaded >= 0)
            {
                return _putsBack;
            }
        }

        return false;
    }

    /// <summary>Where the inputs of a cut stand.</summary>
    internal sealed record CutPlaces(int Empty, int Loaded, int After, int Drift, int Sieving, int Aperture, int Given);

    private CutPlaces Place(EvaluationRequest request, UncertaintyInput uncertainty, OrderedCut cut, int index)
    {
        var weighed = request.Procedure != Procedure.GivenDistribution;
        var loaded = request.Procedure == Procedure.SeparatePortions
            || (request.Procedure == Procedure.CarriedResidue && (index == 0 || (_putsBack && cut.Input.Loaded is not null)));
        return new CutPlaces(
            weighed ? Add(InputKind.EmptySieve, index, cut.Aperture, Weighing.StandardUncertainty) : -1,
            loaded ? Add(InputKind.LoadedSieve, index, cut.Aperture, Weighing.StandardUncertainty) : -1,
            weighed ? Add(InputKind.SieveAfterSieving, index, cut.Aperture, Weighing.StandardUncertainty) : -1,
            weighed ? Add(InputKind.EmptyDrift, index, cut.Aperture, WeighingError.Grams(uncertainty.EmptyDrift) / SqrtThree) : -1,
            weighed ? Add(InputKind.IncompleteSieving, index, cut.Aperture, WeighingError.Grams(cut.Input.LastIntervalChange.GetValueOrDefault()) / SqrtThree) : -1,
            Add(InputKind.SieveAperture, index, cut.Aperture, cut.Input.ApertureStandardUncertainty is { } aperture ? aperture.ToMicrometres() : 0),
            Add(InputKind.GivenPercentage, index, cut.Aperture, cut.Input.PassingStandardUncertaintyPercent is { } percent ? Ratio.FromDecimal(percent).ToDouble() : 0));
    }

    private int Add(InputKind kind, int cut, Aperture? aperture, double standardUncertainty)
    {
        if (!(standardUncertainty > 0))
        {
            return -1;
        }

        _inputs.Add(new UncertainInput(kind, cut, aperture, standardUncertainty));
        return _inputs.Count - 1;
    }
}

using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>The percentages passing of a chunk of trials from its drawn weighings, by the formulas of the procedures (docs/science/separate-portions.md, carried-residue.md, nested-stack.md).</summary>
internal sealed class WeighedTrials
{
    private const int Row = TrialColumn.Length / TrialRandom.Lanes;

    private readonly Procedure _procedure;
    private readonly InputList _inputs;
    private readonly double[] _residue;
    private readonly double[] _arrived;
    private readonly double _receiver;
    private readonly double _portion;
    private readonly bool _ofFractions;

    public WeighedTrials(MeasurementModel model)
    {
        var request = model.Request;
        (_procedure, _inputs, _ofFractions) = (request.Procedure, model.Inputs, request.Settings.Basis == PercentBasis.SumOfFractions);
        _residue = [.. model.Cuts.Select(cut => WeighingError.Grams(cut.After - cut.Empty))];
        _arrived = [.. model.Cuts.Select(cut => WeighingError.Grams(cut.Loaded - cut.Empty))];
        _receiver = request.Receiver is { } receiver ? WeighingError.Grams(receiver.After - receiver.Empty) : 0;
        _portion = WeighingError.Grams(request.Portion.GetValueOrDefault());
    }

    public void Passing(ReadOnlySpan<double> inputs, Span<double> percent)
    {
        var drawn = MemoryMarshal.Cast<double, Vector256<double>>(inputs);
        var passing = MemoryMarshal.Cast<double, Vector256<double>>(percent);
        for (var i = 0; i < Row; i++)
        {
            switch (_procedure)
            {
                case Procedure.SeparatePortions:
                    SeparatePortions(drawn, passing, i);
                    break;
                case Procedure.CarriedResidue:
                    CarriedResidue(drawn, passing, i);
                    break;
                default:
                    NestedStack(drawn, passing, i);
                    break;
            }
        }
    }

    private void SeparatePortions(ReadOnlySpan<Vector256<double>> drawn, Span<Vector256<double>> passing, int i)
    {
        for (var cut = 0; cut < _residue.Length; cut++)
        {
            passing[(cut * Row) + i] = Passing(Residue(drawn, cut, i), Arrived(drawn, cut, i));
        }
    }

    private void CarriedResidue(ReadOnlySpan<Vector256<double>> drawn, Span<Vector256<double>> passing, int i)
    {
        var portion = Arrived(drawn, 0, i);
        var residue = Residue(drawn, 0, i);
        passing[i] = Passing(residue, portion);
        for (var cut = 1; cut < _residue.Length; cut++)
        {
            var own = Residue(drawn, cut, i);
            var before = Vector256.Create(100.0) - passing[((cut - 1) * Row) + i];
            if (_inputs.Places[cut].Loaded >= 0)
            {
                passing[(cut * Row) + i] = Vector256.Create(100.0) - (before * Share(own, Arrived(drawn, cut, i)));
            }
            else
            {
                passing[(cut * Row) + i] = FollowsPutBack(cut) ? Vector256.Create(100.0) - (before * Share(own, residue)) : Passing(own, portion);
            }

            residue = own;
        }
    }

    private bool FollowsPutBack(int cut)
    {
        for (var i = 1; i < cut; i++)
        {
            if (_inputs.Places[i].Loaded >= 0)
            {
                return true;
            }
        }

        return false;
    }

    private void NestedStack(ReadOnlySpan<Vector256<double>> drawn, Span<Vector256<double>> passing, int i)
    {
        // First the sums of what lies on each sieve and all coarser ones, then their shares of the whole.
        var sum = Vector256<double>.Zero;
        for (var cut = _residue.Length - 1; cut >= 0; cut--)
        {
            sum += Vector256.Max(Residue(drawn, cut, i), Vector256<double>.Zero);
            passing[(cut * Row) + i] = sum;
        }

        var whole = _ofFractions
            ? sum + Vector256.Max(Vector256.Create(_receiver) + Moved(drawn, _inputs.ReceiverAfter, i) - Moved(drawn, _inputs.ReceiverEmpty, i), Vector256<double>.Zero)
            : Vector256.Create(_portion) + Moved(drawn, _inputs.Portion, i);
        for (var cut = 0; cut < _residue.Length; cut++)
        {
            passing[(cut * Row) + i] = Passing(passing[(cut * Row) + i], whole);
        }
    }

    /// <summary>r = a - t.</summary>
    private Vector256<double> Residue(ReadOnlySpan<Vector256<double>> drawn, int cut, int i)
    {
        var places = _inputs.Places[cut];
        return Vector256.Create(_residue[cut]) + Moved(drawn, places.After, i) - Moved(drawn, places.Empty, i) + Moved(drawn, places.Drift, i) + Moved(drawn, places.Sieving, i);
    }

    /// <summary>m = b - t.</summary>
    private Vector256<double> Arrived(ReadOnlySpan<Vector256<double>> drawn, int cut, int i)
    {
        var places = _inputs.Places[cut];
        return Vector256.Create(_arrived[cut]) + Moved(drawn, places.Loaded, i) - Moved(drawn, places.Empty, i);
    }

    private static Vector256<double> Moved(ReadOnlySpan<Vector256<double>> drawn, int place, int i) => place < 0 ? Vector256<double>.Zero : drawn[(place * Row) + i];

    private static Vector256<double> Passing(Vector256<double> residue, Vector256<double> whole) => Vector256.Create(100.0) - (Share(residue, whole) * 100);

    /// <summary>A share between nothing and the whole; of a whole that is nothing, nothing.</summary>
    private static Vector256<double> Share(Vector256<double> residue, Vector256<double> whole)
    {
        var share = Vector256.Min(Vector256.Max(residue / whole, Vector256<double>.Zero), Vector256<double>.One);
        return Vector256.ConditionalSelect(Vector256.GreaterThan(whole, Vector256<double>.Zero), share, Vector256<double>.Zero);
    }
}

using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// The percentages passing of a chunk of trials from drawn weighings, by the formulas of the procedures (docs/science/separate-portions.md, carried-residue.md, nested-stack.md). What counts
/// of a sieve's weighings is a - t and b - t, so these are drawn, not the three.
/// </summary>
internal sealed class WeighedTrials
{
    private const int Width = TrialColumn.Length;
    private const double SqrtTwo = 1.4142135623730951;

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

    /// <summary>What is drawn: residue and arrived mass of each cut, and the whole of a nested stack.</summary>
    public int Columns => (2 * _residue.Length) + 1;

    public void Passing(ref TrialRandom random, Span<double> workspace, Span<double> percent)
    {
        var residue = workspace[..(_residue.Length * Width)];
        var arrived = workspace.Slice(_residue.Length * Width, _residue.Length * Width);
        for (var cut = 0; cut < _residue.Length; cut++)
        {
            Weigh(cut, residue.Slice(cut * Width, Width), arrived.Slice(cut * Width, Width), ref random);
        }

        switch (_procedure)
        {
            case Procedure.SeparatePortions:
                Percent(residue, arrived, percent);
                break;
            case Procedure.CarriedResidue:
                CarriedResidue(residue, arrived, percent);
                break;
            default:
                var whole = workspace.Slice(2 * _residue.Length * Width, Width);
                WeighWhole(whole, ref random);
                NestedStack(residue, whole, percent);
                break;
        }
    }

    /// <summary>r = a - t and, where it was weighed, m = b - t.</summary>
    private void Weigh(int cut, Span<double> residue, Span<double> arrived, ref TrialRandom random)
    {
        var (places, error) = (_inputs.Places[cut], _inputs.Weighing);
        residue.Fill(_residue[cut]);
        arrived.Fill(_arrived[cut]);
        if (places.Loaded < 0)
        {
            Difference(residue, error, ref random);
        }
        else
        {
            if (error.Repeatability > 0)
            {
                TrialColumn.AddNormalDifferences(arrived, residue, error.Repeatability, ref random);
            }

            if (error.Readability > 0 || error.Linearity > 0)
            {
                TrialColumn.AddRectangularDifferences(arrived, residue, error.Readability, error.Linearity, ref random);
            }
        }

        Drift(residue, places.Drift, ref random);
        Drift(residue, places.Sieving, ref random);
    }

    private void Drift(Span<double> residue, int place, ref TrialRandom random)
    {
        if (place >= 0)
        {
            TrialColumn.AddRectangular(residue, _inputs.Inputs[place].StandardUncertainty, ref random);
        }
    }

    private static void Difference(Span<double> column, WeighingError error, ref TrialRandom random)
    {
        if (error.Repeatability > 0)
        {
            TrialColumn.AddNormal(column, SqrtTwo * error.Repeatability, ref random);
        }

        if (error.Readability > 0 || error.Linearity > 0)
        {
            TrialColumn.AddRectangularDifference(column, error.Readability, error.Linearity, ref random);
        }
    }

    /// <summary>What passed into the receiver, or the test portion.</summary>
    private void WeighWhole(Span<double> whole, ref TrialRandom random)
    {
        whole.Fill(_ofFractions ? _receiver : _portion);
        if (_ofFractions)
        {
            Difference(whole, _inputs.Weighing, ref random);
            return;
        }

        TrialColumn.AddNormal(whole, _inputs.Weighing.Repeatability, ref random);
        TrialColumn.AddRectangular(whole, _inputs.Weighing.Readability, ref random);
        TrialColumn.AddRectangular(whole, _inputs.Weighing.Linearity, ref random);
    }

    private void CarriedResidue(ReadOnlySpan<double> residue, ReadOnlySpan<double> arrived, Span<double> percent)
    {
        Percent(residue[..Width], arrived[..Width], percent[..Width]);
        for (var cut = 1; cut < _residue.Length; cut++)
        {
            var own = residue.Slice(cut * Width, Width);
            var passing = percent.Slice(cut * Width, Width);
            var before = percent.Slice((cut - 1) * Width, Width);
            if (_inputs.PutsBack(cut))
            {
                PutBack(own, _inputs.Places[cut].Loaded >= 0 ? arrived.Slice(cut * Width, Width) : residue.Slice((cut - 1) * Width, Width), before, passing);
            }
            else
            {
                Percent(own, arrived[..Width], passing);
            }
        }
    }

    /// <summary>R = R of the finer sieve times the share that stays.</summary>
    private static void PutBack(ReadOnlySpan<double> residue, ReadOnlySpan<double> arrived, ReadOnlySpan<double> before, Span<double> percent)
    {
        var r = Vectors(residue);
        var m = Vectors(arrived);
        var q = Vectors(before);
        var to = MemoryMarshal.Cast<double, Vector256<double>>(percent);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector256.Create(100.0) - ((Vector256.Create(100.0) - q[i]) * Share(r[i], m[i]));
        }
    }

    /// <summary>First the sums of what lies on each sieve and all coarser ones, then their shares of the whole.</summary>
    private void NestedStack(Span<double> residue, Span<double> whole, Span<double> percent)
    {
        var r = MemoryMarshal.Cast<double, Vector256<double>>(residue);
        var w = MemoryMarshal.Cast<double, Vector256<double>>(whole);
        for (var i = 0; i < w.Length; i++)
        {
            var sum = Vector256<double>.Zero;
            for (var at = r.Length - w.Length + i; at >= 0; at -= w.Length)
            {
                sum += Vector256.Max(r[at], Vector256<double>.Zero);
                r[at] = sum;
            }

            w[i] = _ofFractions ? sum + Vector256.Max(w[i], Vector256<double>.Zero) : w[i];
        }

        for (var cut = 0; cut < _residue.Length; cut++)
        {
            Percent(residue.Slice(cut * Width, Width), whole, percent.Slice(cut * Width, Width));
        }
    }

    /// <summary>Q = 100 (1 - r/m).</summary>
    private static void Percent(ReadOnlySpan<double> residue, ReadOnlySpan<double> whole, Span<double> percent)
    {
        var r = Vectors(residue);
        var m = Vectors(whole);
        var to = MemoryMarshal.Cast<double, Vector256<double>>(percent);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector256.Create(100.0) - (Share(r[i], m[i]) * 100);
        }
    }

    private static ReadOnlySpan<Vector256<double>> Vectors(ReadOnlySpan<double> column) => MemoryMarshal.Cast<double, Vector256<double>>(column);

    /// <summary>A share between nothing and the whole; of a whole that is nothing, nothing.</summary>
    private static Vector256<double> Share(Vector256<double> residue, Vector256<double> whole)
    {
        var share = Vector256.Min(Vector256.Max(residue / whole, Vector256<double>.Zero), Vector256<double>.One);
        return Vector256.ConditionalSelect(Vector256.GreaterThan(whole, Vector256<double>.Zero), share, Vector256<double>.Zero);
    }
}

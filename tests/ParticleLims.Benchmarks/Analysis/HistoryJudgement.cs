using BenchmarkDotNet.Attributes;
using MathNet.Numerics.Interpolation;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Conformity.History;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>A million stored distributions over six apertures against four limits: passing, retained between two apertures, a guarded percentile and the span.</summary>
public class HistoryJudgement
{
    private const int Rows = 1_000_000;
    private readonly double[] logs = [.. SixSieves.Sizes.Select(size => Math.Log(size))];
    private double[][] columns = [];
    private StoredDistributions stored = null!;

    private static readonly StoredLimit[] Limits =
    [
        new() { Limit = new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 65m, Upper = 77m } },
        new() { Limit = new LimitInput { Characteristic = Characteristic.Retained, Aperture = Aperture.FromMicrometres(100m), Upper = 9m } },
        new() { Limit = new LimitInput { Characteristic = Characteristic.Percentile, Percent = 50m, Lower = 42m, Upper = 52m, Rule = DecisionRule.Guarded }, ExpandedUncertainty = 1.5 },
        new() { Limit = new LimitInput { Characteristic = Characteristic.Span, Upper = 1.6m } },
    ];

    /// <summary>Rows about the run that is measured elsewhere, from a seed; where a row would decrease it is level.</summary>
    [GlobalSetup]
    public void SetUp()
    {
        var random = new Random(1);
        columns = [.. SixSieves.Sizes.Select(_ => new double[Rows])];
        for (var row = 0; row < Rows; row++)
        {
            var (shift, before) = ((random.NextDouble() - 0.5) * 12, 0.0);
            for (var cut = 0; cut < columns.Length; cut++)
            {
                before = Math.Clamp(Math.Round(SixSieves.Passing[cut] + shift + (random.NextDouble() * 2), 2), before, 100);
                columns[cut][row] = before;
            }
        }

        stored = new StoredDistributions([.. SixSieves.Sizes.Select(size => Aperture.FromMicrometres((decimal)size))], columns);
        var (ours, theirs) = (OnAllCores().AllLimits.Conform, WithMathNet());
        if (Math.Abs(ours - theirs) > Rows / 100_000)
        {
            throw new InvalidOperationException($"The two that are compared do not agree: {ours} conform, and {theirs}.");
        }
    }

    /// <summary>On all cores.</summary>
    [Benchmark]
    public StoredVerdicts OnAllCores() => stored.Judge(Limits, (count, work) => Parallel.For(0, count, work));

    /// <summary>On one core.</summary>
    [Benchmark]
    public StoredVerdicts OnOneCore() => stored.Judge(Limits);

    /// <summary>With MathNet's linear splines, two a row, on all cores; only the rows that conform are counted.</summary>
    [Benchmark]
    public int WithMathNet()
    {
        var conform = 0;
        Parallel.For(0, Rows, () => 0, (row, _, sum) => sum + (Conforms(row) ? 1 : 0), sum => Interlocked.Add(ref conform, sum));
        return conform;
    }

    private bool Conforms(int row)
    {
        var percent = columns.Select(column => column[row]).ToArray();
        var curve = LinearSpline.InterpolateSorted(logs, percent);
        if (curve.Interpolate(logs[3]) is not (>= 65 and <= 77) || 100 - curve.Interpolate(Math.Log(100)) > 9 || percent[0] > 10 || percent[^1] < 90)
        {
            return false;
        }

        var (fine, middle, coarse) = (Size(percent, 10), Size(percent, 50), Size(percent, 90));
        return middle is >= 43.5 and <= 50.5 && (coarse - fine) / middle <= 1.6;
    }

    // The inverse of a curve with level parts is no spline: the segment is looked for first.
    private double Size(double[] percent, double asked)
    {
        var upper = 1;
        while (percent[upper] < asked)
        {
            upper++;
        }

        return Math.Exp(LinearSpline.InterpolateSorted([percent[upper - 1], percent[upper]], [logs[upper - 1], logs[upper]]).Interpolate(asked));
    }
}

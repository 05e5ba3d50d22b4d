using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using MathNet.Numerics.Statistics;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>Trials of separate portions as one writes them with MathNet: arrays of draws, a loop over the trials, the platform's logarithm, and sorted arrays for mean, deviation and interval.</summary>
internal static class MathNetTrials
{
    private const int Block = 10_000;
    private static readonly double[] Asked = [10, 50, 90];

    /// <summary>Mean, standard deviation and the ends of the probabilistically symmetric 95 % interval of D10, D50 and D90.</summary>
    public static double[][] Run(int trials)
    {
        var values = Asked.Select(_ => new double[trials]).ToArray();
        Parallel.For(0, trials / Block, block => OneBlock(values, block));
        var summaries = new double[Asked.Length][];
        Parallel.For(0, Asked.Length, i => summaries[i] = Summary(values[i]));
        return summaries;
    }

    private static void OneBlock(double[][] values, int block)
    {
        var random = new Xoshiro256StarStar(block + 1, threadSafe: false);
        var cuts = SixSieves.Sizes.Length;
        var (percent, logs, drawn) = (new double[cuts][], new double[cuts][], new double[Block]);
        for (var cut = 0; cut < cuts; cut++)
        {
            var residue = SixSieves.Portion * (100 - SixSieves.Passing[cut]) / 100;
            var (empty, loaded, after) = (Weighing(random, drawn), Weighing(random, drawn), Weighing(random, drawn));
            percent[cut] = new double[Block];
            logs[cut] = new double[Block];
            Normal.Samples(random, logs[cut], SixSieves.Sizes[cut], SixSieves.Sizes[cut] * SixSieves.ApertureShare);
            for (var i = 0; i < Block; i++)
            {
                percent[cut][i] = 100 * (1 - ((residue + after[i] - empty[i]) / (SixSieves.Portion + loaded[i] - empty[i])));
                logs[cut][i] = Math.Log(logs[cut][i]);
            }
        }

        for (var i = 0; i < Block; i++)
        {
            Read(values, percent, logs, (block * Block) + i, i);
        }
    }

    private static double[] Weighing(Random random, double[] drawn)
    {
        var sum = new double[Block];
        Normal.Samples(random, sum, 0, SixSieves.Repeatability);
        ContinuousUniform.Samples(random, drawn, -SixSieves.Readability / 2, SixSieves.Readability / 2);
        Add(sum, drawn);
        ContinuousUniform.Samples(random, drawn, -SixSieves.Linearity, SixSieves.Linearity);
        Add(sum, drawn);
        return sum;
    }

    private static void Add(double[] sum, double[] drawn)
    {
        for (var i = 0; i < sum.Length; i++)
        {
            sum[i] += drawn[i];
        }
    }

    // These curves do not cross themselves: the sieves lie far apart beside their uncertainties.
    private static void Read(double[][] values, double[][] percent, double[][] logs, int trial, int i)
    {
        for (var asked = 0; asked < Asked.Length; asked++)
        {
            var upper = 1;
            while (upper < percent.Length - 1 && percent[upper][i] < Asked[asked])
            {
                upper++;
            }

            var part = (Asked[asked] - percent[upper - 1][i]) / (percent[upper][i] - percent[upper - 1][i]);
            values[asked][trial] = Math.Exp(logs[upper - 1][i] + (part * (logs[upper][i] - logs[upper - 1][i])));
        }
    }

    private static double[] Summary(double[] values)
    {
        var (mean, deviation) = ArrayStatistics.MeanStandardDeviation(values);
        Array.Sort(values);
        return [mean, deviation, SortedArrayStatistics.Quantile(values, 0.025), SortedArrayStatistics.Quantile(values, 0.975)];
    }
}

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// Propagation of distributions (JCGM 101:2008, clause 7; docs/science/monte-carlo.md): blocks of trials, each with random numbers of its own, so the answer is the same for any number of threads.
/// </summary>
internal sealed class MonteCarlo(ForEachBlock forEach, double coverage, long seed)
{
    private const int LeastBlock = 10_000;
    private const int Wave = 8;

    /// <summary>Trials in a block: 7.9.4 a) asks for 100/(1 - p) and at least 10 000.</summary>
    private int BlockLength { get; } = RoundUp(Math.Max(LeastBlock, (int)Math.Ceiling(100 / (1 - coverage))));

    /// <summary>The values of each output: so many trials, rounded up to whole chunks.</summary>
    public double[][] Run(ITrialModel model, int trials)
    {
        trials = RoundUp(trials);
        var values = Room(model.Outputs, trials);
        var blocks = (trials + BlockLength - 1) / BlockLength;
        var random = TrialRandom.ForBlocks(seed, blocks);
        forEach(blocks, block => Block(model, random[block], values, block * BlockLength, Math.Min(BlockLength, trials - (block * BlockLength))));
        return values;
    }

    /// <summary>
    /// The adaptive procedure (7.9.4): blocks are added until twice the standard deviation of each averaged mean, standard uncertainty and end of the interval lies below the numerical tolerance, or
    /// the most trials are made. An output without a value in some trial is not waited for.
    /// </summary>
    public double[][] RunUntilStable(ITrialModel model, int mostTrials, int digits)
    {
        var most = Math.Max(2, RoundUp(mostTrials) / BlockLength);
        var random = TrialRandom.ForBlocks(seed, most);
        var values = Room(model.Outputs, most * BlockLength);
        var ofBlocks = new TrialSummary?[most * model.Outputs];
        for (var done = 0; done < most;)
        {
            var wave = Math.Min(Wave, most - done);
            var first = done;
            forEach(wave, i => SummarisedBlock(model, random[first + i], values, ofBlocks, first + i));
            for (var h = done + 1; h <= done + wave; h++)
            {
                if (h >= 2 && IsStable(values, ofBlocks, model.Outputs, h, digits))
                {
                    return Array.ConvertAll(values, one => one[..(h * BlockLength)]);
                }
            }

            done += wave;
        }

        return values;
    }

    private void SummarisedBlock(ITrialModel model, TrialRandom random, double[][] values, TrialSummary?[] ofBlocks, int block)
    {
        Block(model, random, values, block * BlockLength, BlockLength);
        for (var output = 0; output < model.Outputs; output++)
        {
            var own = values[output].AsSpan(block * BlockLength, BlockLength);
            ofBlocks[(block * model.Outputs) + output] = TrialSummary.IfFinite(own, coverage);
        }
    }

    private bool IsStable(double[][] values, TrialSummary?[] ofBlocks, int outputs, int blocks, int digits)
    {
        for (var output = 0; output < outputs; output++)
        {
            var own = values[output].AsSpan(0, blocks * BlockLength);
            if (VectorSums.AllFinite(own) && !IsStable(ofBlocks, outputs, output, blocks, NumericalTolerance.Of(TrialSummary.DeviationOf(own), digits)))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>2 s of the averages, with s² = sum (y_b - mean)² / (h (h - 1)) over the h blocks (7.9.4 f and g).</summary>
    private static bool IsStable(TrialSummary?[] ofBlocks, int outputs, int output, int blocks, double tolerance)
    {
        Span<double> means = stackalloc double[4];
        Span<double> squares = stackalloc double[4];
        means.Clear();
        squares.Clear();
        for (var block = 0; block < blocks; block++)
        {
            if (ofBlocks[(block * outputs) + output] is { } one)
            {
                Add(means, squares, [one.Mean, one.StandardDeviation, one.Low, one.High], block + 1);
            }
        }

        var largest = Math.Max(Math.Max(squares[0], squares[1]), Math.Max(squares[2], squares[3]));
        return 2 * Math.Sqrt(largest / blocks / (blocks - 1)) < tolerance || largest == 0;
    }

    /// <summary>Welford, Technometrics 4 (1962) 419.</summary>
    private static void Add(Span<double> means, Span<double> squares, ReadOnlySpan<double> values, int count)
    {
        for (var i = 0; i < values.Length; i++)
        {
            var apart = values[i] - means[i];
            means[i] += apart / count;
            squares[i] += apart * (values[i] - means[i]);
        }
    }

    private static void Block(ITrialModel model, TrialRandom random, double[][] values, int start, int length)
    {
        var workspace = new double[model.Columns * TrialColumn.Length];
        var outputs = new double[model.Outputs * TrialColumn.Length];
        for (var at = start; at < start + length; at += TrialColumn.Length)
        {
            model.Run(ref random, workspace, outputs);
            for (var output = 0; output < model.Outputs; output++)
            {
                outputs.AsSpan(output * TrialColumn.Length, TrialColumn.Length).CopyTo(values[output].AsSpan(at));
            }
        }
    }

    /// <summary>Not cleared: every place is written.</summary>
    private static double[][] Room(int outputs, int trials) => [.. Enumerable.Range(0, outputs).Select(_ => GC.AllocateUninitializedArray<double>(trials))];

    private static int RoundUp(int trials) => (trials + TrialColumn.Length - 1) / TrialColumn.Length * TrialColumn.Length;
}

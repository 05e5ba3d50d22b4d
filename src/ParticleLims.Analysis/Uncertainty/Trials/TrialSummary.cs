namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>What trials say of one output, in its unit.</summary>
internal sealed record TrialSummary(double Mean, double StandardDeviation, double Low, double High)
{
    /// <summary>Mean, standard deviation (JCGM 101:2008, 7.6) and shortest interval (7.7).</summary>
    public static TrialSummary Of(ReadOnlySpan<double> values, double coverage)
    {
        var mean = 0.0;
        for (var start = 0; start < values.Length; start += TrialColumn.Length)
        {
            mean += Sum(values.Slice(start, Math.Min(TrialColumn.Length, values.Length - start)), 0);
        }

        mean /= values.Length;
        var squares = 0.0;
        for (var start = 0; start < values.Length; start += TrialColumn.Length)
        {
            squares += Squares(values.Slice(start, Math.Min(TrialColumn.Length, values.Length - start)), mean);
        }

        var (low, high) = ShortestInterval.Of(values, coverage);
        return new TrialSummary(mean, Math.Sqrt(squares / (values.Length - 1)), low, high);
    }

    /// <summary>Whether every value is a number.</summary>
    public static bool AllFinite(ReadOnlySpan<double> values)
    {
        foreach (var value in values)
        {
            if (!double.IsFinite(value))
            {
                return false;
            }
        }

        return true;
    }

    private static double Sum(ReadOnlySpan<double> values, double about)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value - about;
        }

        return sum;
    }

    private static double Squares(ReadOnlySpan<double> values, double mean)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += (value - mean) * (value - mean);
        }

        return sum;
    }
}

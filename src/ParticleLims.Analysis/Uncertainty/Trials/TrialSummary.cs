namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>What trials say of one output, in its unit.</summary>
internal sealed record TrialSummary(double Mean, double StandardDeviation, double Low, double High)
{
    private const int Chunk = 1_000;

    /// <summary>Mean, standard deviation (JCGM 101:2008, 7.6) and shortest interval (7.7); null where some trial has no value.</summary>
    public static TrialSummary? IfFinite(ReadOnlySpan<double> values, double coverage) => VectorSums.AllFinite(values) ? Of(values, coverage) : null;

    /// <summary>The same of values that are all finite.</summary>
    public static TrialSummary Of(ReadOnlySpan<double> values, double coverage)
    {
        var mean = MeanOf(values);
        var (low, high) = ShortestInterval.Of(values, coverage);
        return new TrialSummary(mean, DeviationAbout(values, mean), low, high);
    }

    /// <summary>The standard deviation of values that are all finite.</summary>
    public static double DeviationOf(ReadOnlySpan<double> values) => DeviationAbout(values, MeanOf(values));

    /// <summary>Chunk by chunk, so that a million values lose no more digits than a thousand.</summary>
    private static double MeanOf(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        for (var start = 0; start < values.Length; start += Chunk)
        {
            sum += VectorSums.Sum(values.Slice(start, Math.Min(Chunk, values.Length - start)));
        }

        return sum / values.Length;
    }

    private static double DeviationAbout(ReadOnlySpan<double> values, double mean)
    {
        var squares = 0.0;
        for (var start = 0; start < values.Length; start += Chunk)
        {
            squares += VectorSums.Squares(values.Slice(start, Math.Min(Chunk, values.Length - start)), mean);
        }

        return Math.Sqrt(squares / (values.Length - 1));
    }
}

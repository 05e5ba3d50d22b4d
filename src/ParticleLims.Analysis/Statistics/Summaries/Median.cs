namespace ParticleLims.Analysis.Statistics.Summaries;

/// <summary>The middle value, or the middle of the two middle ones.</summary>
internal static class Median
{
    public static double Of(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        var middle = sorted.Count / 2;
        return sorted.Count % 2 == 1 ? sorted[middle] : sorted[middle - 1] + ((sorted[middle] - sorted[middle - 1]) / 2);
    }
}

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>A run rule as a question to a window of points, given in standard deviations from the centre.</summary>
internal sealed record RunPattern(RunRule Rule, int Length, Func<double[], IEnumerable<int>?> Find, string Words)
{
    /// <summary>The whole window has a property.</summary>
    public static RunPattern All(RunRule rule, int length, Func<double[], bool> holds, string words) =>
        new(rule, length, window => holds(window) ? Enumerable.Range(0, window.Length) : null, words);

    /// <summary>So many points of the window, the last among them, lie beyond a distance on one side.</summary>
    public static RunPattern SameSide(RunRule rule, int length, int count, double beyond, string words) =>
        new(rule, length, window => Beyond(window, count, beyond, 1) ?? Beyond(window, count, beyond, -1), words);

    /// <summary>The hit that the point at a place completes; null if it completes none. The first points make a shorter window if that can hold enough.</summary>
    public RunRuleHit? At(double[] distances, int end)
    {
        var start = Math.Max(0, end - Length + 1);
        var window = distances[start..(end + 1)];
        return window.Length >= Needed && Find(window) is { } points
            ? new RunRuleHit { Rule = Rule, Points = [.. points.Select(point => start + point)], Words = Words }
            : null;
    }

    private int Needed => Rule is RunRule.TwoOfThreeBeyondTwoSigma or RunRule.FourOfFiveBeyondOneSigma ? Length - 1 : Length;

    private static List<int>? Beyond(double[] window, int count, double beyond, int side)
    {
        List<int> points = [.. Enumerable.Range(0, window.Length).Where(i => side * window[i] > beyond)];
        return points.Count >= count && points[^1] == window.Length - 1 ? points : null;
    }
}

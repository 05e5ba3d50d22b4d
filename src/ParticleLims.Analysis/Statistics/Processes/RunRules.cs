using System.Collections.Immutable;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>Looks for patterns that chance seldom makes (docs/science/run-rules.md). Source: as for <see cref="RunRule"/>.</summary>
public static class RunRules
{
    /// <summary>All places where a chosen rule is broken, in the order of the points that complete it. A point on a line is not beyond it.</summary>
    /// <param name="values">The points.</param>
    /// <param name="centre">The centre line, in the values' unit.</param>
    /// <param name="sigma">The standard deviation of one value, in the values' unit; above zero.</param>
    /// <param name="rules">The rules that count.</param>
    /// <param name="sameSide">How many points on one side make a run: 9 by Nelson, 8 by Western Electric.</param>
    /// <exception cref="ArgumentException">No value, or a number out of range.</exception>
    public static ImmutableArray<RunRuleHit> Broken(IReadOnlyList<double> values, double centre, double sigma, RunRule rules, int sameSide = 9)
    {
        Given.Values(values, 1, nameof(values));
        Given.Value(centre, nameof(centre));
        Given.Positive(sigma, nameof(sigma));
        if (sameSide is < 2 or > 100)
        {
            throw new ArgumentOutOfRangeException(nameof(sameSide), sameSide, "A run on one side has 2 to 100 points.");
        }

        var distances = values.Select(value => (value - centre) / sigma).ToArray();
        var patterns = Patterns(sameSide).Where(pattern => rules.HasFlag(pattern.Rule)).ToList();
        return
        [
            .. from end in Enumerable.Range(0, distances.Length)
               from pattern in patterns
               let hit = pattern.At(distances, end)
               where hit is not null
               select hit,
        ];
    }

    private static IEnumerable<RunPattern> Patterns(int sameSide) =>
    [
        RunPattern.SameSide(RunRule.BeyondThreeSigma, 1, 1, 3, "One point lies beyond three σ."),
        RunPattern.SameSide(RunRule.RunOnOneSide, sameSide, sameSide, 0, FormattableString.Invariant($"{sameSide} points in a row lie on one side of the centre.")),
        RunPattern.All(RunRule.SixInTrend, 6, window => IsTrend(window, 1) || IsTrend(window, -1), "Six points in a row go the same way."),
        RunPattern.All(RunRule.FourteenAlternating, 14, IsAlternating, "Fourteen points in a row go up and down by turns."),
        RunPattern.SameSide(RunRule.TwoOfThreeBeyondTwoSigma, 3, 2, 2, "Two of three points in a row lie beyond two σ on the same side."),
        RunPattern.SameSide(RunRule.FourOfFiveBeyondOneSigma, 5, 4, 1, "Four of five points in a row lie beyond one σ on the same side."),
        RunPattern.All(RunRule.FifteenWithinOneSigma, 15, window => Array.TrueForAll(window, distance => Math.Abs(distance) < 1), "Fifteen points in a row lie within one σ."),
        RunPattern.All(RunRule.EightBeyondOneSigma, 8, window => Array.TrueForAll(window, distance => Math.Abs(distance) > 1), "Eight points in a row lie beyond one σ."),
    ];

    private static bool IsTrend(double[] window, int direction)
    {
        for (var i = 1; i < window.Length; i++)
        {
            if (Math.Sign(window[i] - window[i - 1]) != direction)
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsAlternating(double[] window)
    {
        for (var i = 2; i < window.Length; i++)
        {
            if (Math.Sign(window[i] - window[i - 1]) * Math.Sign(window[i - 1] - window[i - 2]) >= 0)
            {
                return false;
            }
        }

        return true;
    }
}

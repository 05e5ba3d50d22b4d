using System.Globalization;
using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>Says in words why a fit should not be trusted (docs/science/fit-cautions.md).</summary>
internal static class FitCautions
{
    private const int FewPoints = 4;
    private const double RareRun = 0.05;
    private const double FarQuantile = 2.5758293035489004;

    /// <summary>The fit with what speaks against it.</summary>
    public static FittedModel Told(FittedModel fit, IReadOnlyList<FitPoint> points, bool hasUncertainties, bool settled)
    {
        var told = Add(null, fit.PointsUsed < FewPoints ? string.Create(CultureInfo.InvariantCulture, $"Only {fit.PointsUsed} points take part; a line through fewer than four says little.") : null);
        told = Add(told, hasUncertainties && fit.ReducedChiSquare is { } chiSquare ? ChiSquare(chiSquare, fit.PointsUsed - 2) : null);
        told = Add(told, Run(fit.Residuals));
        told = Add(told, Outside(fit, points));
        told = Add(told, settled ? null : "The search for the best fit did not come to rest; its standard errors are left out.");
        return told is null ? fit : fit with { Caution = told };
    }

    private static string? Add(string? told, string? more) => told is null || more is null ? told ?? more : told + " " + more;

    /// <summary>Wilson and Hilferty's cube root of chi² is nearly normal; far is beyond its 0.5 and 99.5 %.</summary>
    private static string? ChiSquare(double reduced, int freedom)
    {
        var spread = 2.0 / (9 * freedom);
        var z = (CubeRoot(reduced) - (1 - spread)) / Math.Sqrt(spread);
        return Math.Abs(z) <= FarQuantile ? null : string.Create(CultureInfo.InvariantCulture, $"Chi² per degree of freedom is {reduced:G3} and not near one: ")
            + (z > 0 ? "the points lie further from the model than the uncertainties of the percentages explain; those of the apertures do not count here." : "the points lie nearer to the model than the uncertainties of the percentages let expect.");
    }

    private static string? Run(IReadOnlyList<FitResidual> residuals)
    {
        int longest = 0, current = 0, last = 0, runs = 0, above = 0, below = 0;
        foreach (var residual in residuals)
        {
            var sign = Math.Abs(residual.PassingPercent) < 1e-9 ? 0 : Math.Sign(residual.PassingPercent);
            if (sign == 0)
            {
                continue;
            }

            current = sign == last ? current + 1 : 1;
            runs += sign == last ? 0 : 1;
            (above, below) = sign > 0 ? (above + 1, below) : (above, below + 1);
            (longest, last) = (Math.Max(longest, current), sign);
        }

        return longest > 1 && IsRare(longest, above, below, runs) ? string.Create(CultureInfo.InvariantCulture, $"{longest} points in a row lie on the same side of the model: the curve is bent otherwise.") : null;
    }

    private static bool IsRare(int longest, int above, int below, int runs) =>
        ChanceOfRun(above + below, longest) < RareRun || (above > 0 && below > 0 && ChanceOfRuns(above, below, runs) < RareRun);

    /// <summary>The probability that of so many tosses of a coin at least so many in a row are alike.</summary>
    internal static double ChanceOfRun(int tosses, int length)
    {
        Span<double> without = stackalloc double[tosses + 1];
        without.Clear();
        without[0] = 1;
        for (var i = 1; i <= tosses; i++)
        {
            for (var last = 1; last < length && last <= i; last++)
            {
                without[i] += without[i - last] * (i == last ? 2 : 1);
            }
        }

        return 1 - (without[tosses] / Math.ScaleB(1, tosses));
    }

    /// <summary>
    /// The probability that so many points above and below a curve, mixed at random, make at most so many runs: Wald and Wolfowitz, Annals of Mathematical
    /// Statistics 11 (1940) 147.
    /// </summary>
    internal static double ChanceOfRuns(int above, int below, int runs)
    {
        var ways = 0.0;
        for (var made = 2; made <= runs; made++)
        {
            var (few, many) = ((made / 2) - 1, ((made + 1) / 2) - 1);
            ways += (Choose(above - 1, few) * Choose(below - 1, many)) + (Choose(above - 1, many) * Choose(below - 1, few));
        }

        return ways / Choose(above + below, above);
    }

    private static double Choose(int all, int some)
    {
        var ways = some <= all ? 1.0 : 0;
        for (var i = 1; i <= some; i++)
        {
            ways = ways * (all - some + i) / i;
        }

        return ways;
    }

    /// <summary>A top size lies beyond the apertures by its nature.</summary>
    private static string? Outside(FittedModel fit, IReadOnlyList<FitPoint> points)
    {
        var position = NaturalLogarithm.Of(fit.SizeMicrometres);
        return fit.Model == Model.GatesGaudinSchuhmann || (position >= points[0].LogSize && position <= points[^1].LogSize)
            ? null
            : "The position lies outside the measured apertures.";
    }

    private static double CubeRoot(double value) => value > 0 ? Exponential.Of(NaturalLogarithm.Of(value) / 3) : 0;
}

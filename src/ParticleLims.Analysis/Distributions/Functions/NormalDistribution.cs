using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Distributions.Functions;

/// <summary>The standard normal distribution and its quantile, from arithmetic that is the same on every machine.</summary>
internal static class NormalDistribution
{
    private const double SqrtTwoPi = 2.5066282746310002;
    private const double TailFrom = 1.5;
    private const double Farthest = 37;
    private const int TailSteps = 120;

    /// <summary>
    /// The probability below z, from 0 to 1, with a relative error below 1e-14 for z from -37 to 8. Series in the middle (Marsaglia, Journal of
    /// Statistical Software 11 (2004) 4), continued fraction in the tails (Abramowitz and Stegun 26.2.14).
    /// </summary>
    public static double Below(double z)
    {
        if (z <= -TailFrom)
        {
            return Tail(-z);
        }

        return z >= TailFrom ? 1 - Tail(z) : 0.5 + Middle(z);
    }

    /// <summary>
    /// The z below which the probability is p; accuracy about 1e-15. Algorithm AS 241, PPND16 (Wichura, Applied Statistics 37
    /// (1988) 477).
    /// </summary>
    /// <param name="p">The probability, strictly between 0 and 1.</param>
    /// <param name="rest">1 - p, given apart so that nothing is lost near one.</param>
    public static double Quantile(double p, double rest)
    {
        var q = (p - rest) / 2;
        if (Math.Abs(q) <= 0.425)
        {
            return q * Central(0.180625 - (q * q));
        }

        var r = Math.Sqrt(-NaturalLogarithm.Of(Math.Min(p, rest)));
        var z = r <= 5 ? Intermediate(r - 1.6) : Far(r - 5);
        return q < 0 ? -z : z;
    }

    /// <summary>The density at z, for z from -37 to 37.</summary>
    public static double Density(double z) => Exponential.Of(-0.5 * z * z) / SqrtTwoPi;

    /// <summary>
    /// The probabilities below several z and the densities there, which are zero beyond ±37: the same bits as one by one. Four at a time, each long fraction of a tail with up to three others,
    /// wherever they stand.
    /// </summary>
    public static void Below(ReadOnlySpan<Vector256<double>> z, Span<Vector256<double>> probabilities, Span<Vector256<double>> densities)
    {
        Span<int> places = stackalloc int[Vector256<double>.Count];
        var waiting = 0;
        for (var i = 0; i < z.Length; i++)
        {
            var far = Vector256.Abs(z[i]);
            var inReach = Vector256.LessThanOrEqual(far, Vector256.Create(Farthest));
            var reached = Vector256.Min(far, Vector256.Create(Farthest));
            densities[i] = inReach & (FourExponentials.Of(reached * -0.5 * reached) / SqrtTwoPi);
            probabilities[i] = Middles(z[i], densities[i]);
            for (var tails = (inReach & Vector256.GreaterThanOrEqual(far, Vector256.Create(TailFrom))).ExtractMostSignificantBits(); tails != 0; tails &= tails - 1)
            {
                places[waiting++] = (i * Vector256<double>.Count) + BitOperations.TrailingZeroCount(tails);
                if (waiting == places.Length)
                {
                    Tails(Numbers(z), places, Numbers(densities), MemoryMarshal.Cast<Vector256<double>, double>(probabilities));
                    waiting = 0;
                }
            }
        }

        Tails(Numbers(z), places[..waiting], Numbers(densities), MemoryMarshal.Cast<Vector256<double>, double>(probabilities));
    }

    private static ReadOnlySpan<double> Numbers(ReadOnlySpan<Vector256<double>> fours) => MemoryMarshal.Cast<Vector256<double>, double>(fours);

    /// <summary>Right below 1.5 and beyond 37; what lies between is done apart.</summary>
    private static Vector256<double> Middles(Vector256<double> z, Vector256<double> density)
    {
        var inMiddle = Vector256.LessThan(Vector256.Abs(z), Vector256.Create(TailFrom));
        var beyond = Vector256.ConditionalSelect(Vector256.GreaterThan(z, Vector256<double>.Zero), Vector256<double>.One, Vector256<double>.Zero);
        if (inMiddle == Vector256<double>.Zero)
        {
            return beyond;
        }

        // A term that no longer changes its sum is followed by smaller ones, so a lane that has ended may go on with the others.
        var term = inMiddle & z;
        var (sum, square) = (Vector256<double>.Zero, term * term);
        for (var k = 3; sum + term != sum; k += 2)
        {
            sum += term;
            term *= square / Vector256.Create((double)k);
        }

        return Vector256.ConditionalSelect(inMiddle, Vector256.Create(0.5) + (sum * density), beyond);
    }

    private static void Tails(ReadOnlySpan<double> z, ReadOnlySpan<int> places, ReadOnlySpan<double> densities, Span<double> probabilities)
    {
        if (places.IsEmpty)
        {
            return;
        }

        var distances = Vector256.Create(TailFrom);
        for (var lane = 0; lane < places.Length; lane++)
        {
            distances = distances.WithElement(lane, Math.Abs(z[places[lane]]));
        }

        var fractions = distances;
        for (var k = TailSteps; k >= 1; k--)
        {
            fractions = distances + (Vector256.Create((double)k) / fractions);
        }

        for (var lane = 0; lane < places.Length; lane++)
        {
            var tail = densities[places[lane]] / fractions[lane];
            probabilities[places[lane]] = z[places[lane]] < 0 ? tail : 1 - tail;
        }
    }

    private static double Middle(double z)
    {
        double sum = 0, term = z;
        for (var k = 3; sum + term != sum; k += 2)
        {
            sum += term;
            term *= z * z / k;
        }

        return sum * Density(z);
    }

    private static double Tail(double z)
    {
        if (z > Farthest)
        {
            return 0;
        }

        var fraction = z;
        for (var k = TailSteps; k >= 1; k--)
        {
            fraction = z + (k / fraction);
        }

        return Density(z) / fraction;
    }

    private static double Central(double r) =>
        Polynomial(r, [3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3])
        / Polynomial(r, [1, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4, 3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3]);

    private static double Intermediate(double r) =>
        Polynomial(r, [1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0, 1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4])
        / Polynomial(r, [1, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1, 1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9]);

    private static double Far(double r) =>
        Polynomial(r, [6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7])
        / Polynomial(r, [1, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2, 7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15]);

    private static double Polynomial(double x, ReadOnlySpan<double> coefficients)
    {
        var value = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--)
        {
            value = (value * x) + coefficients[i];
        }

        return value;
    }
}

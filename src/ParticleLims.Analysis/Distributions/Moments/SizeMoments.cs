using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Moments;

/// <summary>
/// Moments and mean diameters by ISO 9276-2 of the mass between the finest and the coarsest aperture, which is made the whole. What lies outside has no
/// known size; its share is told with them (docs/science/moments.md, docs/science/mean-diameters.md).
/// </summary>
public sealed class SizeMoments
{
    private readonly IReadOnlyList<(double Share, Func<int, double> Power)> _classes;
    private readonly double _whole;

    private SizeMoments(IReadOnlyList<(double Share, Func<int, double> Power)> classes, Ratio below, Ratio above)
    {
        (_classes, BelowPercent, AbovePercent) = (classes, below, above);
        foreach (var (share, _) in classes)
        {
            _whole += share;
        }
    }

    /// <summary>The share of the mass below the finest aperture in percent, exactly; it takes no part.</summary>
    public Ratio BelowPercent { get; }

    /// <summary>The share of the mass above the coarsest aperture in percent, exactly; it takes no part.</summary>
    public Ratio AbovePercent { get; }

    /// <summary>The standard deviation of the mass distribution in micrometres (µm), sqrt(M(2,3) - M(1,3)²).</summary>
    public double StandardDeviationMicrometres => Math.Sqrt(Math.Max(0, Moment(2) - (Moment(1) * Moment(1))));

    /// <summary>The Sauter mean x(1,2) in micrometres (µm): the size with the same surface per volume as the whole.</summary>
    public double SauterMeanMicrometres => Mean(1, 2);

    /// <summary>The moments of classes; null where no mass lies between two apertures.</summary>
    /// <param name="classes">The classes, finest first, with both open ends.</param>
    /// <param name="rule">What is taken for the sizes inside a class.</param>
    public static SizeMoments? Of(IReadOnlyList<SizeClass> classes, ClassMean rule = ClassMean.ConstantDensity)
    {
        ArgumentNullException.ThrowIfNull(classes);
        var closed = classes.Where(one => one.Bounds is not null && one.Percent.Sign > 0).ToList();
        return closed.Count == 0
            ? null
            : new SizeMoments(
                closed.ConvertAll(one => (one.Share, Power(rule, one.Bounds.GetValueOrDefault()))),
                Sum(classes.Where(one => one.From is null)), Sum(classes.Where(one => one.From is not null && one.To is null)));
    }

    /// <summary>The moment M(k,3) of the mass distribution, in micrometres (µm) to the power k.</summary>
    /// <param name="k">The order, from -6 to 6.</param>
    /// <exception cref="ArgumentOutOfRangeException">The order lies outside its range.</exception>
    public double Moment(int k)
    {
        if (k is < -6 or > 6)
        {
            throw new ArgumentOutOfRangeException(nameof(k), k, "The order of a moment lies between -6 and 6.");
        }

        var sum = 0.0;
        foreach (var (share, power) in _classes)
        {
            sum += share / _whole * power(k);
        }

        return sum;
    }

    /// <summary>
    /// The mean diameter x(k,r) in micrometres (µm): the k-th root of the k-th moment of the distribution by quantity r (0 number, 1 length, 2 area, 3 volume or
    /// mass), x(k,r) = (M(k+r-3,3) / M(r-3,3))^(1/k).
    /// </summary>
    /// <param name="k">The order, from 1 to 3.</param>
    /// <param name="r">The kind of quantity, from 0 to 3.</param>
    /// <exception cref="ArgumentOutOfRangeException">Order or quantity lies outside its range.</exception>
    public double Mean(int k, int r)
    {
        if (k is < 1 or > 3 || r is < 0 or > 3)
        {
            throw new ArgumentOutOfRangeException(nameof(k), k, "A mean diameter has an order from 1 to 3 and a quantity from 0 to 3.");
        }

        var quotient = Moment(k + r - 3) / Moment(r - 3);
        return k switch
        {
            1 => quotient,
            2 => Math.Sqrt(quotient),
            _ => Exponential.Of(NaturalLogarithm.Of(quotient) / 3),
        };
    }

    /// <summary>From shares at single sizes, as tables of mean diameters give them.</summary>
    internal static SizeMoments OfSizes(IReadOnlyList<(double Share, double Micrometres)> sizes) =>
        new(sizes.Select(size => (size.Share, (Func<int, double>)(k => Whole(size.Micrometres, k)))).ToList(), Ratio.Zero, Ratio.Zero);

    private static Func<int, double> Power(ClassMean rule, (double From, double To) bounds) => rule switch
    {
        ClassMean.ConstantDensity => k => Integrated(bounds.From, bounds.To, k),
        ClassMean.ArithmeticMiddle => k => Whole((bounds.From + bounds.To) / 2, k),
        ClassMean.GeometricMiddle => k => Whole(Math.Sqrt(bounds.From * bounds.To), k),
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "The rule is none of the named ones."),
    };

    /// <summary>(b^(k+1) - a^(k+1)) / ((k + 1)(b - a)), divided out so that nothing cancels; ln(b/a)/(b - a) for k = -1.</summary>
    private static double Integrated(double a, double b, int k)
    {
        if (k == -1)
        {
            return NaturalLogarithm.OfOnePlus((b - a) / a) / (b - a);
        }

        var n = k >= 0 ? k : -k - 2;
        var sum = 0.0;
        for (var j = 0; j <= n; j++)
        {
            sum += Whole(a, j) * Whole(b, n - j);
        }

        return k >= 0 ? sum / (n + 1) : sum / ((n + 1) * Whole(a * b, n + 1));
    }

    private static double Whole(double x, int k)
    {
        var power = 1.0;
        for (var i = Math.Abs(k); i > 0; i--)
        {
            power *= x;
        }

        return k < 0 ? 1 / power : power;
    }

    private static Ratio Sum(IEnumerable<SizeClass> classes) => classes.Aggregate(Ratio.Zero, (sum, one) => sum + one.Percent);
}

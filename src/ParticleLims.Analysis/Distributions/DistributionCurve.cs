using ParticleLims.Analysis.Distributions.Rules;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>
/// The cumulative curve Q3(x) through the measured apertures (ISO 9276-1). It does not decrease, and it is defined between the
/// finest and the coarsest aperture only: beyond them it answers "below" or "above", never with a guess.
/// </summary>
public sealed class DistributionCurve
{
    private readonly CurveRule _rule;

    internal DistributionCurve(IReadOnlyList<CurvePoint> points, Interpolation interpolation)
    {
        Points = points;
        Interpolation = interpolation;
        _rule = interpolation switch
        {
            Interpolation.Linear => new LinearRule(points),
            Interpolation.LogLinear => new LogLinearRule(points),
            Interpolation.RosinRammler => new NetRule(points, Net.RosinRammler),
            Interpolation.LogNormal => new NetRule(points, Net.LogNormal),
            Interpolation.MonotoneCubic => new MonotoneCubicRule(points),
            _ => throw new ArgumentOutOfRangeException(nameof(interpolation), interpolation, "The interpolation is none of the named ones."),
        };
    }

    /// <summary>The points, finest aperture first.</summary>
    public IReadOnlyList<CurvePoint> Points { get; }

    /// <summary>How the curve runs between the points.</summary>
    public Interpolation Interpolation { get; }

    /// <summary>The size of which so many percent of the mass is finer; where the curve is level, the finest such size.</summary>
    /// <param name="percent">The share in percent, between 0 and 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">The share is not between 0 and 100 %.</exception>
    public Percentile Percentile(decimal percent)
    {
        if (percent is not (> 0m and < 100m))
        {
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "A percentile lies between 0 % and 100 %.");
        }

        var share = Ratio.FromDecimal(percent);
        if (share < Points[0].PassingPercent)
        {
            return new Percentile { Percent = percent, Micrometres = SizeOf(0), Relation = Relation.Below };
        }

        if (share > Points[^1].PassingPercent)
        {
            return new Percentile { Percent = percent, Micrometres = SizeOf(Points.Count - 1), Relation = Relation.Above };
        }

        var upper = 0;
        while (Points[upper].PassingPercent < share)
        {
            upper++;
        }

        var size = Points[upper].PassingPercent == share ? SizeOf(upper) : _rule.SizeAt(upper - 1, share);
        return new Percentile { Percent = percent, Micrometres = size, Relation = Relation.Equal };
    }

    /// <summary>The percentage passing a size in micrometres (µm); null outside the measured apertures.</summary>
    public double? PassingPercentAt(double micrometres)
    {
        if (!(micrometres >= SizeOf(0) && micrometres <= SizeOf(Points.Count - 1)))
        {
            return null;
        }

        var upper = 0;
        while (SizeOf(upper) < micrometres)
        {
            upper++;
        }

        return SizeOf(upper) == micrometres || Level(upper - 1)
            ? Points[upper].PassingPercent.ToDouble()
            : _rule.PercentAt(upper - 1, micrometres);
    }

    /// <summary>The span (D90 - D10) / D50; a lower bound where one of the three lies outside the measured apertures.</summary>
    public Span Span()
    {
        var (fine, middle, coarse) = (Percentile(10m), Percentile(50m), Percentile(90m));
        var known = fine.Relation == Relation.Equal && middle.Relation == Relation.Equal && coarse.Relation == Relation.Equal;
        return new Span
        {
            Value = (coarse.Micrometres - fine.Micrometres) / middle.Micrometres,
            Relation = known ? Relation.Equal : Relation.Above,
        };
    }

    /// <summary>The shares between the apertures, with both open ends; they add up to 100 %.</summary>
    public IReadOnlyList<SizeClass> Classes()
    {
        var classes = new List<SizeClass>(Points.Count + 1);
        var below = Ratio.Zero;
        Aperture? from = null;
        foreach (var point in Points)
        {
            classes.Add(new SizeClass { From = from, To = point.Aperture, Percent = point.PassingPercent - below });
            (from, below) = (point.Aperture, point.PassingPercent);
        }

        classes.Add(new SizeClass { From = from, Percent = Ratio.Hundred - below });
        return classes.AsReadOnly();
    }

    /// <summary>The percentage at an aperture inside the measured range, and whether it is exact.</summary>
    internal (Ratio Percent, bool Exact) PercentWithin(Aperture aperture)
    {
        var upper = 0;
        while (Points[upper].Aperture < aperture)
        {
            upper++;
        }

        if (Points[upper].Aperture == aperture)
        {
            return (Points[upper].MeasuredPercent, true);
        }

        if (Level(upper - 1))
        {
            return (Points[upper].PassingPercent, true);
        }

        return _rule.ExactPercentAt(upper - 1, aperture) is { } exact
            ? (exact, true)
            : (Ratio.FromDouble(_rule.PercentAt(upper - 1, aperture.ToMicrometres())), false);
    }

    private bool Level(int segment) => Points[segment].PassingPercent == Points[segment + 1].PassingPercent;

    private double SizeOf(int index) => Points[index].Aperture.ToMicrometres();
}

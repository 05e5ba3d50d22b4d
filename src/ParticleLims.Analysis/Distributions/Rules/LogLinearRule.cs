using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Rules;

/// <summary>x = x1 (x2 / x1)^p with p = (Q - Q1) / (Q2 - Q1) (docs/science/interpolation.md).</summary>
internal sealed class LogLinearRule(IReadOnlyList<CurvePoint> points) : CurveRule
{
    public override double SizeAt(int segment, Ratio percent)
    {
        var (low, high) = (points[segment].PassingPercent, points[segment + 1].PassingPercent);
        return SizeAtPart(segment, ((percent - low) / (high - low)).ToDouble());
    }

    public override double PercentAt(int segment, double micrometres)
    {
        var (bottom, top) = (points[segment].PassingPercent.ToDouble(), points[segment + 1].PassingPercent.ToDouble());
        return Math.Clamp(bottom + (PartAt(segment, micrometres) * (top - bottom)), bottom, top);
    }

    /// <summary>The size at a part, from 0 to 1, of the segment's width in ln x.</summary>
    public double SizeAtPart(int segment, double part)
    {
        var (low, high) = (Micrometres(points[segment]), Micrometres(points[segment + 1]));
        return Math.Clamp(low * Exponential.Of(part * LogWidth(segment)), low, high);
    }

    /// <summary>The part, from 0 to 1, of the segment's width in ln x at a size.</summary>
    public double PartAt(int segment, double micrometres) =>
        NaturalLogarithm.Of(micrometres / Micrometres(points[segment])) / LogWidth(segment);

    /// <summary>ln x2 - ln x1.</summary>
    public double LogWidth(int segment) => NaturalLogarithm.Of(
        Ratio.Of(points[segment + 1].Aperture.Nanometres, points[segment].Aperture.Nanometres).ToDouble());

    private static double Micrometres(CurvePoint point) => point.Aperture.ToMicrometres();
}

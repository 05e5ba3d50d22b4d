using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>x = x1 (x2 / x1)^p with p = (Q - Q1) / (Q2 - Q1) (docs/science/interpolation.md).</summary>
internal sealed class LogLinearRule(IReadOnlyList<CurvePoint> points) : CurveRule
{
    public override double SizeAt(int segment, Ratio percent)
    {
        var (low, high) = (points[segment], points[segment + 1]);
        var part = ((percent - low.PassingPercent) / (high.PassingPercent - low.PassingPercent)).ToDouble();
        var size = Micrometres(low) * Exponential.Of(part * LogWidth(low, high));
        return Math.Clamp(size, Micrometres(low), Micrometres(high));
    }

    public override double PercentAt(int segment, double micrometres)
    {
        var (low, high) = (points[segment], points[segment + 1]);
        var part = NaturalLogarithm.Of(micrometres / Micrometres(low)) / LogWidth(low, high);
        var (bottom, top) = (low.PassingPercent.ToDouble(), high.PassingPercent.ToDouble());
        return Math.Clamp(bottom + (part * (top - bottom)), bottom, top);
    }

    private static double LogWidth(CurvePoint low, CurvePoint high) =>
        NaturalLogarithm.Of(Ratio.Of(high.Aperture.Nanometres, low.Aperture.Nanometres).ToDouble());

    private static double Micrometres(CurvePoint point) => Ratio.Of(point.Aperture.Nanometres, 1_000).ToDouble();
}

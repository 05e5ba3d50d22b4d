using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Rules;

/// <summary>
/// x = x1 + (x2 - x1) (Q - Q1) / (Q2 - Q1), computed exactly and rounded once (docs/science/interpolation.md).
/// </summary>
internal sealed class LinearRule(IReadOnlyList<CurvePoint> points) : CurveRule
{
    public override double SizeAt(int segment, Ratio percent)
    {
        var (low, high) = (points[segment], points[segment + 1]);
        var part = (percent - low.PassingPercent) / (high.PassingPercent - low.PassingPercent);
        return (X(low) + (part * (X(high) - X(low)))).ToDouble();
    }

    public override double PercentAt(int segment, double micrometres) => Percent(segment, Ratio.FromDouble(micrometres)).ToDouble();

    public override Ratio? ExactPercentAt(int segment, Aperture aperture) =>
        Percent(segment, Ratio.Of(aperture.Nanometres, 1_000));

    private Ratio Percent(int segment, Ratio x)
    {
        var (low, high) = (points[segment], points[segment + 1]);
        var part = (x - X(low)) / (X(high) - X(low));
        return low.PassingPercent + (part * (high.PassingPercent - low.PassingPercent));
    }

    private static Ratio X(CurvePoint point) => Ratio.Of(point.Aperture.Nanometres, 1_000);
}

using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Rules;

/// <summary>
/// Straight in a net: x = x1 (x2 / x1)^p with p = (h(Q) - h(Q1)) / (h(Q2) - h(Q1)) and h the net's ordinate. A segment that ends at 0 or
/// 100 % has no place in the net and follows the logarithmic rule instead (docs/science/interpolation.md).
/// </summary>
internal sealed class NetRule(IReadOnlyList<CurvePoint> points, Net net) : CurveRule
{
    private readonly LogLinearRule _ends = new(points);

    public override double SizeAt(int segment, Ratio percent)
    {
        if (!IsInNet(segment, out var bottom, out var height))
        {
            return _ends.SizeAt(segment, percent);
        }

        return _ends.SizeAtPart(segment, (net.Ordinate(percent) - bottom) / height);
    }

    public override double PercentAt(int segment, double micrometres)
    {
        if (!IsInNet(segment, out var bottom, out var height))
        {
            return _ends.PercentAt(segment, micrometres);
        }

        var percent = net.Percent(bottom + (_ends.PartAt(segment, micrometres) * height));
        return Math.Clamp(percent, points[segment].PassingPercent.ToDouble(), points[segment + 1].PassingPercent.ToDouble());
    }

    /// <summary>Also no: two percentages so near to each other that their ordinates are the same number.</summary>
    private bool IsInNet(int segment, out double bottom, out double height)
    {
        (bottom, height) = (0, 0);
        var (low, high) = (points[segment].PassingPercent, points[segment + 1].PassingPercent);
        if (low <= Ratio.Zero || high >= Ratio.Hundred)
        {
            return false;
        }

        bottom = net.Ordinate(low);
        height = net.Ordinate(high) - bottom;
        return height > 0;
    }
}

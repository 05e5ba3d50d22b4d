using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;

namespace ParticleLims.Analysis.Uncertainty.Curves;

/// <summary>
/// The cumulative curve in doubles, for the many slightly different curves of an uncertainty evaluation; the same rules as <see cref="DistributionCurve"/>, which keeps fractions exact.
/// Beyond the measured apertures it answers with the end.
/// </summary>
internal readonly ref struct NumericCurve(ReadOnlySpan<double> percent, ReadOnlySpan<double> sizes, ReadOnlySpan<double> logs, Interpolation interpolation)
{
    private const int Halvings = 60;

    private readonly ReadOnlySpan<double> _percent = percent;
    private readonly ReadOnlySpan<double> _sizes = sizes;
    private readonly ReadOnlySpan<double> _logs = logs;

    /// <summary>The size in µm of which so many percent are finer.</summary>
    public double SizeAt(double percent)
    {
        if (percent <= _percent[0])
        {
            return _sizes[0];
        }

        var upper = 1;
        while (upper < _percent.Length && _percent[upper] < percent)
        {
            upper++;
        }

        return upper == _percent.Length ? _sizes[^1] : SizeWithin(upper - 1, percent);
    }

    /// <summary>The percentage passing a size in µm.</summary>
    public double PercentAt(double micrometres)
    {
        if (micrometres <= _sizes[0])
        {
            return _percent[0];
        }

        var upper = 1;
        while (upper < _sizes.Length && _sizes[upper] < micrometres)
        {
            upper++;
        }

        return upper == _sizes.Length ? _percent[^1] : PercentWithin(upper - 1, micrometres);
    }

    private double SizeWithin(int segment, double percent)
    {
        var (low, high) = (_percent[segment], _percent[segment + 1]);
        var part = (percent - low) / (high - low);
        switch (interpolation)
        {
            case Interpolation.Linear:
                return _sizes[segment] + (part * (_sizes[segment + 1] - _sizes[segment]));
            case Interpolation.RosinRammler or Interpolation.LogNormal when low > 0 && high < 100:
                var net = interpolation == Interpolation.RosinRammler ? Net.RosinRammler : Net.LogNormal;
                var (bottom, top) = (net.OrdinateOf(low), net.OrdinateOf(high));
                return SizeAtPart(segment, top > bottom ? (net.OrdinateOf(percent) - bottom) / (top - bottom) : part);
            case Interpolation.MonotoneCubic:
                return SizeAtPart(segment, CubicPart(segment, percent));
            default:
                return SizeAtPart(segment, part);
        }
    }

    private double PercentWithin(int segment, double micrometres)
    {
        var (low, high) = (_percent[segment], _percent[segment + 1]);
        var part = (NaturalLogarithm.Of(micrometres) - _logs[segment]) / (_logs[segment + 1] - _logs[segment]);
        switch (interpolation)
        {
            case Interpolation.Linear:
                return low + ((micrometres - _sizes[segment]) / (_sizes[segment + 1] - _sizes[segment]) * (high - low));
            case Interpolation.RosinRammler or Interpolation.LogNormal when low > 0 && high < 100 && high > low:
                var net = interpolation == Interpolation.RosinRammler ? Net.RosinRammler : Net.LogNormal;
                var (bottom, top) = (net.OrdinateOf(low), net.OrdinateOf(high));
                return net.Percent(bottom + (part * (top - bottom)));
            case Interpolation.MonotoneCubic:
                return Cubic(segment, part);
            default:
                return low + (part * (high - low));
        }
    }

    private double SizeAtPart(int segment, double part) => Exponential.Of(_logs[segment] + (part * (_logs[segment + 1] - _logs[segment])));

    private double CubicPart(int segment, double percent)
    {
        double low = 0, high = 1;
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Cubic(segment, middle) < percent ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    private double Cubic(int segment, double part)
    {
        var width = _logs[segment + 1] - _logs[segment];
        var rise = _percent[segment + 1] - _percent[segment];
        var (start, end) = (width * Slope(segment), width * Slope(segment + 1));
        return _percent[segment] + MonotoneCubicRule.Rise(part, rise, start, end);
    }

    private double Slope(int point)
    {
        if (_percent.Length == 2)
        {
            return Chord(0);
        }

        if (point == 0)
        {
            return MonotoneCubicRule.EndSlope(Width(0), Width(1), Chord(0), Chord(1));
        }

        var last = _percent.Length - 2;
        return point > last
            ? MonotoneCubicRule.EndSlope(Width(last), Width(last - 1), Chord(last), Chord(last - 1))
            : MonotoneCubicRule.InnerSlope(Width(point - 1), Width(point), Chord(point - 1), Chord(point));
    }

    private double Width(int segment) => _logs[segment + 1] - _logs[segment];

    private double Chord(int segment) => (_percent[segment + 1] - _percent[segment]) / Width(segment);
}

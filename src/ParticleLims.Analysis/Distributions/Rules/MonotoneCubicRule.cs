using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Rules;

/// <summary>
/// A piecewise cubic in ln x that does not overshoot (Fritsch and Carlson, SIAM Journal on Numerical Analysis 17 (1980) 238), with the
/// slopes at the points as weighted harmonic means of the neighbouring differences (Fritsch and Butland, SIAM Journal on Scientific and
/// Statistical Computing 5 (1984) 300) and the usual three-point slopes at the ends (docs/science/interpolation.md).
/// </summary>
internal sealed class MonotoneCubicRule : CurveRule
{
    private const int Halvings = 60;

    private readonly LogLinearRule _sizes;
    private readonly double[] _percent;
    private readonly double[] _width;
    private readonly double[] _slope;

    public MonotoneCubicRule(IReadOnlyList<CurvePoint> points)
    {
        _sizes = new LogLinearRule(points);
        _percent = points.Select(point => point.PassingPercent.ToDouble()).ToArray();
        _width = Enumerable.Range(0, Math.Max(0, points.Count - 1)).Select(_sizes.LogWidth).ToArray();
        var chord = _width.Select((width, i) => (_percent[i + 1] - _percent[i]) / width).ToArray();
        _slope = points.Select((_, i) => Slope(i, _width, chord)).ToArray();
    }

    public override double SizeAt(int segment, Ratio percent)
    {
        var share = percent.ToDouble();
        double low = 0, high = 1;
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = At(segment, middle) < share ? (middle, high) : (low, middle);
        }

        return _sizes.SizeAtPart(segment, (low + high) / 2);
    }

    public override double PercentAt(int segment, double micrometres) => At(segment, _sizes.PartAt(segment, micrometres));

    private double At(int segment, double part)
    {
        var rise = _percent[segment + 1] - _percent[segment];
        var (start, end) = (_width[segment] * _slope[segment], _width[segment] * _slope[segment + 1]);
        return Math.Clamp(_percent[segment] + Rise(part, rise, start, end), _percent[segment], _percent[segment + 1]);
    }

    /// <summary>The cubic from 0 to the rise, over a part from 0 to 1, with its slopes at both ends.</summary>
    internal static double Rise(double part, double rise, double start, double end) =>
        part * (start + (part * ((3 * rise) - (2 * start) - end + (part * (start + end - (2 * rise))))));

    private static double Slope(int point, double[] width, double[] chord) => width.Length switch
    {
        0 => 0,
        1 => chord[0],
        _ when point == 0 => EndSlope(width[0], width[1], chord[0], chord[1]),
        _ when point == width.Length => EndSlope(width[^1], width[^2], chord[^1], chord[^2]),
        _ => InnerSlope(width[point - 1], width[point], chord[point - 1], chord[point]),
    };

    internal static double InnerSlope(double leftWidth, double rightWidth, double leftChord, double rightChord)
    {
        if (leftChord <= 0 || rightChord <= 0)
        {
            return 0;
        }

        var (left, right) = ((2 * rightWidth) + leftWidth, rightWidth + (2 * leftWidth));
        return (left + right) / ((left / leftChord) + (right / rightChord));
    }

    /// <summary>Chords do not fall here, so that only a negative slope has to be caught.</summary>
    internal static double EndSlope(double width, double next, double chord, double nextChord) =>
        Math.Max(0, ((((2 * width) + next) * chord) - (width * nextChord)) / (width + next));
}

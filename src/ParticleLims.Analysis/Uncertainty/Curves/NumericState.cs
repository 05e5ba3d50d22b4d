using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;

namespace ParticleLims.Analysis.Uncertainty.Curves;

/// <summary>One possible outcome of the measurement: percentages as measured and made monotone, sizes, and what can be read off them.</summary>
internal readonly ref struct NumericState(
    ReadOnlySpan<double> measured, ReadOnlySpan<double> repaired, ReadOnlySpan<double> sizes, ReadOnlySpan<double> logs, Interpolation interpolation, double surfaceFactor)
{
    private readonly ReadOnlySpan<double> _measured = measured;
    private readonly ReadOnlySpan<double> _repaired = repaired;
    private readonly ReadOnlySpan<double> _sizes = sizes;
    private readonly ReadOnlySpan<double> _logs = logs;

    /// <summary>The characteristic's value; not a number where this outcome has none.</summary>
    /// <param name="subject">The characteristic.</param>
    /// <param name="cut">The place of the cut at whose aperture a percentage is asked; -1 between the cuts.</param>
    public double Value(Subject subject, int cut)
    {
        var curve = new NumericCurve(_repaired, _sizes, _logs, interpolation);
        return subject.Characteristic switch
        {
            Characteristic.Percentile => curve.SizeAt((double)subject.Percent.GetValueOrDefault()),
            Characteristic.Passing => Passing(curve, subject, cut),
            Characteristic.Retained => 100 - Passing(curve, subject, cut),
            Characteristic.Span => (curve.SizeAt(90) - curve.SizeAt(10)) / curve.SizeAt(50),
            Characteristic.RosinRammlerSlope => Line().Slope,
            Characteristic.RosinRammlerSize => Line().Size,
            Characteristic.SpecificSurface => Surface(),
            _ => double.NaN,
        };
    }

    private double Passing(NumericCurve curve, Subject subject, int cut) =>
        cut >= 0 ? _measured[cut] : curve.PercentAt((double)subject.Aperture.GetValueOrDefault().Micrometres);

    /// <summary>The straight line in the Rosin-Rammler net (docs/science/straight-line-fit.md).</summary>
    private (double Slope, double Size) Line()
    {
        double x = 0, y = 0, xx = 0, xy = 0;
        var count = 0;
        Span<double> ordinates = stackalloc double[_measured.Length];
        for (var i = 0; i < _measured.Length; i++)
        {
            if (_measured[i] is > 0 and < 100)
            {
                ordinates[i] = Net.RosinRammler.OrdinateOf(_measured[i]);
                (x, y, count) = (x + _logs[i], y + ordinates[i], count + 1);
            }
        }

        (x, y) = (x / count, y / count);
        for (var i = 0; i < _measured.Length; i++)
        {
            if (_measured[i] is > 0 and < 100)
            {
                xx += (_logs[i] - x) * (_logs[i] - x);
                xy += (_logs[i] - x) * (ordinates[i] - y);
            }
        }

        var slope = count > 1 ? xy / xx : double.NaN;
        var logSize = x - (y / slope);
        return slope > 0 && Math.Abs(logSize) < 100 ? (slope, Exponential.Of(logSize)) : (double.NaN, double.NaN);
    }

    /// <summary>6 f/(ρ x(1,2)) with q3 constant in each class (docs/science/specific-surface.md).</summary>
    private double Surface()
    {
        double share = 0, surface = 0;
        for (var i = 1; i < _repaired.Length; i++)
        {
            var part = _repaired[i] - _repaired[i - 1];
            share += part;
            surface += part * (_logs[i] - _logs[i - 1]) / (_sizes[i] - _sizes[i - 1]);
        }

        return share > 0 ? surfaceFactor * surface / share : double.NaN;
    }
}

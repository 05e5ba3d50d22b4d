using System.Collections.Immutable;
using System.Globalization;
using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// The curve of a reference material's certificate, read backwards: from the mass that passed to the aperture (docs/science/effective-aperture.md). Between two points it is straight over the
/// logarithm of the aperture; beyond the ends nothing is said. Source: common practice with glass-bead reference materials; the propagation by JCGM 100:2008, 5.1.2 and, for the neighbouring
/// points, which hang together, 5.2.2.
/// </summary>
public sealed class CertificateCurve
{
    private readonly ImmutableArray<CertifiedPoint> _points;

    private CertificateCurve(ImmutableArray<CertifiedPoint> points) => _points = points;

    /// <summary>The curve through two points or more.</summary>
    /// <exception cref="ArgumentException">
    /// Fewer than two points, an aperture that is not above 0 µm and at most 1 m, a percentage outside 0 to 100, a negative uncertainty, or passing that does not rise with the aperture.
    /// </exception>
    public static CertificateCurve Through(IEnumerable<CertifiedPoint> points)
    {
        ImmutableArray<CertifiedPoint> sorted = [.. points.OrderBy(point => point.ApertureMicrometres)];
        if (sorted.Length < 2 || sorted.Any(point => !IsInRange(point)))
        {
            throw new ArgumentException("A curve has two points or more, with apertures of 0.001 µm to 1 m, 0 to 100 % passing and uncertainties that are not negative.", nameof(points));
        }

        return sorted.Zip(sorted.Skip(1)).All(pair => pair.First.ApertureMicrometres < pair.Second.ApertureMicrometres && pair.First.PassingPercent < pair.Second.PassingPercent)
            ? new CertificateCurve(sorted)
            : throw new ArgumentException("More passes a wider aperture: the percentages rise with the apertures.", nameof(points));
    }

    /// <summary>The effective aperture of the sieve that passed so much.</summary>
    /// <param name="passingPercent">What passed (%).</param>
    /// <param name="uncertaintyPercent">Its standard uncertainty (%).</param>
    /// <exception cref="ArgumentOutOfRangeException">A percentage outside 0 to 100, or a negative uncertainty.</exception>
    public EffectiveApertureReading Read(double passingPercent, double uncertaintyPercent)
    {
        Percent(passingPercent, nameof(passingPercent));
        Percent(uncertaintyPercent, nameof(uncertaintyPercent));
        var upper = 1;
        while (upper < _points.Length - 1 && _points[upper].PassingPercent < passingPercent)
        {
            upper++;
        }

        return passingPercent < _points[0].PassingPercent || passingPercent > _points[^1].PassingPercent
            ? new EffectiveApertureReading { Refusal = Outside(passingPercent) }
            : new EffectiveApertureReading { Aperture = Between(_points[upper - 1], _points[upper], passingPercent, uncertaintyPercent) };
    }

    private static EffectiveAperture Between(CertifiedPoint low, CertifiedPoint high, double passing, double uncertainty)
    {
        var rise = high.PassingPercent - low.PassingPercent;
        var share = (passing - low.PassingPercent) / rise;
        var step = NaturalLogarithm.Of(high.ApertureMicrometres) - NaturalLogarithm.Of(low.ApertureMicrometres);
        var aperture = share == 1 ? high.ApertureMicrometres : low.ApertureMicrometres * Exponential.Of(share * step);
        var perPercent = aperture * step / rise;
        var ofPassing = perPercent * Mix(low.PassingUncertaintyPercent, high.PassingUncertaintyPercent, share);
        var ofAperture = aperture
            * Mix(low.ApertureUncertaintyMicrometres / low.ApertureMicrometres, high.ApertureUncertaintyMicrometres / high.ApertureMicrometres, share);
        return new EffectiveAperture
        {
            Micrometres = aperture,
            ObservationMicrometres = perPercent * uncertainty,
            CertificateMicrometres = Math.Sqrt((ofPassing * ofPassing) + (ofAperture * ofAperture)),
        };
    }

    private string Outside(double passing) => string.Create(
        CultureInfo.InvariantCulture,
        $"{passing:0.##} % passed; the certificate goes from {_points[0].PassingPercent:0.##} % at {_points[0].ApertureMicrometres:0.##} µm to {_points[^1].PassingPercent:0.##} % at {_points[^1].ApertureMicrometres:0.##} µm. Another reference material is needed for this sieve.");

    private static double Mix(double low, double high, double share) => low + (share * (high - low));

    private static bool IsInRange(CertifiedPoint point) => point is
    {
        ApertureMicrometres: >= 0.001 and <= 1_000_000,
        PassingPercent: >= 0 and <= 100,
        PassingUncertaintyPercent: >= 0 and <= 100,
        ApertureUncertaintyMicrometres: >= 0 and <= 1_000_000,
    };

    private static void Percent(double value, string name)
    {
        if (value is not (>= 0 and <= 100))
        {
            throw new ArgumentOutOfRangeException(name, value, "A percentage lies between 0 and 100.");
        }
    }
}

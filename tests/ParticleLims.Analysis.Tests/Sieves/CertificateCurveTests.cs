using CsCheck;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Statistics.Summaries;
using ParticleLims.Analysis.Tests.ReferenceData;
using ParticleLims.Analysis.Tests.Statistics;

namespace ParticleLims.Analysis.Tests.Sieves;

/// <summary>
/// No certificate's table was found. The curve here is the mean of NIST's own sieving of nine bottles of the glass beads SRM 1017b (srm_1017b_homogeneity.csv), with the scatter between bottles as its
/// uncertainty: real percentages at real apertures, not the certified ones.
/// </summary>
public sealed class CertificateCurveTests
{
    private static readonly CertifiedPoint[] Points = [.. ReferenceFile.Rows("srm_1017b_homogeneity.csv").Where(row => row["bottle"] != "48").GroupBy(row => row["aperture_um"])
        .Select(sieve => (Aperture: double.Parse(sieve.Key, System.Globalization.CultureInfo.InvariantCulture), Summary: SampleSummary.Of(sieve.Select(row => row.Number("percent")).ToList())))
        .Select(sieve => new CertifiedPoint { ApertureMicrometres = sieve.Aperture, PassingPercent = sieve.Summary.Mean, PassingUncertaintyPercent = sieve.Summary.StandardDeviation!.Value })];

    private static readonly CertificateCurve Beads = CertificateCurve.Through(Points);

    [Fact]
    public void What_passes_a_certified_aperture_leads_back_to_it()
    {
        Points.Length.ShouldBe(7);
        foreach (var point in Points)
        {
            var aperture = Beads.Read(point.PassingPercent, 0).Aperture.ShouldNotBeNull();
            aperture.Micrometres.ShouldBe(point.ApertureMicrometres, 1e-9);
            aperture.ObservationMicrometres.ShouldBe(0);
            aperture.CertificateMicrometres.ShouldBeGreaterThan(0);
        }
    }

    /// <summary>By hand: between 180 µm (48.2156 %) and 212 µm (59.9156 %), 54.0656 % lie half way, so √(180 · 212) = 195.346 µm; one percent is 195.346 ln(212/180)/11.7 = 2.7320 µm.</summary>
    [Fact]
    public void Half_way_between_two_points_lies_their_geometric_mean()
    {
        var aperture = Beads.Read((48.21555555556 + 59.91555555556) / 2, 0.5).Aperture.ShouldNotBeNull();
        aperture.Micrometres.ShouldBe(195.346, 1e-3);
        aperture.ObservationMicrometres.ShouldBe(0.5 * 2.7320, 1e-4);
        aperture.CertificateMicrometres.ShouldBe(2.7320 * (0.339934634240 + 0.315300458428) / 2, 1e-4);
        aperture.StandardUncertaintyMicrometres.ShouldBe(Math.Sqrt(Math.Pow(1.36600, 2) + Math.Pow(0.89505, 2)), 1e-3);
    }

    [Theory]
    [InlineData(86)]
    [InlineData(4.4)]
    [InlineData(100)]
    public void Outside_the_curve_nothing_is_said_but_why(double passing)
    {
        var reading = Beads.Read(passing, 0.3);
        reading.Aperture.ShouldBeNull();
        reading.Refusal.ShouldNotBeNull().ShouldContain("from 4.47 % at 106 µm to 85.53 % at 300 µm");
    }

    [Fact]
    public void More_passing_is_never_a_finer_aperture() =>
        Gen.Double[4.5, 85.5].Select(Gen.Double[4.5, 85.5]).Sample(pair =>
        {
            var (low, high) = (Beads.Read(Math.Min(pair.Item1, pair.Item2), 0).Aperture!, Beads.Read(Math.Max(pair.Item1, pair.Item2), 0).Aperture!);
            low.Micrometres.ShouldBeLessThanOrEqualTo(high.Micrometres);
            low.Micrometres.ShouldBeInRange(106, 300);
        });

    /// <summary>JCGM 101 in small: 40 000 draws of the observation and of a common error of the certificate.</summary>
    [Fact]
    public void The_uncertainty_is_that_of_drawn_readings()
    {
        var random = new Normals(9);
        var expected = Beads.Read(52, 0.4).Aperture.ShouldNotBeNull();
        var drawn = Enumerable.Range(0, 40_000).Select(_ =>
        {
            var common = random.Next();
            var curve = CertificateCurve.Through(Points.Select(point => point with { PassingPercent = point.PassingPercent + (common * point.PassingUncertaintyPercent) }));
            return curve.Read(52 + (0.4 * random.Next()), 0).Aperture!.Micrometres;
        }).ToList();
        SampleSummary.Of(drawn).StandardDeviation!.Value.ShouldBe(expected.StandardUncertaintyMicrometres, 0.02 * expected.StandardUncertaintyMicrometres);
    }

    [Fact]
    public void A_certificate_by_apertures_gives_their_uncertainty()
    {
        var curve = CertificateCurve.Through(
        [
            new CertifiedPoint { ApertureMicrometres = 60, PassingPercent = 20, ApertureUncertaintyMicrometres = 0.6 },
            new CertifiedPoint { ApertureMicrometres = 80, PassingPercent = 70, ApertureUncertaintyMicrometres = 0.8 },
        ]);
        var aperture = curve.Read(45, 0).Aperture.ShouldNotBeNull();
        aperture.CertificateMicrometres.ShouldBe(0.01 * aperture.Micrometres, 1e-12);
    }

    [Fact]
    public void A_curve_that_does_not_rise_is_refused()
    {
        Should.Throw<ArgumentException>(() => CertificateCurve.Through([Points[0]]));
        Should.Throw<ArgumentException>(() => CertificateCurve.Through([Points[0], Points[1] with { PassingPercent = Points[0].PassingPercent }]));
        Should.Throw<ArgumentException>(() => CertificateCurve.Through([Points[0], Points[1] with { ApertureMicrometres = double.NaN }]));
        Should.Throw<ArgumentOutOfRangeException>(() => Beads.Read(double.NaN, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => Beads.Read(50, -0.1));
    }
}

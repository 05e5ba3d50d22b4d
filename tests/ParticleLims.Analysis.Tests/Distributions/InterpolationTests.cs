using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Distributions;

/// <summary>
/// The three curved rules on one table: 8.5, 24.75, 47.125, 71, 90.25 and 98 % passing 20, 32, 45, 63, 90 and 125 µm. The nets against
/// mpmath 1.2.1 (30 digits), the cubic against SciPy 1.10.1, <c>PchipInterpolator(log(x), q)</c> inverted with <c>brentq</c>.
/// </summary>
public sealed class InterpolationTests
{
    private static readonly EvaluationRequest Table =
        Requests.Given((20m, 8.5m), (32m, 24.75m), (45m, 47.125m), (63m, 71m), (90m, 90.25m), (125m, 98m));

    [Theory]
    [InlineData(Interpolation.RosinRammler, new[] { 21.42735646102848, 35.21514718130017, 46.959095904888855, 54.09280745087898, 89.44590341637343, 116.63710690289837 })]
    [InlineData(Interpolation.LogNormal, new[] { 21.274240343634236, 34.952594777755216, 46.78025435455808, 53.61024651360819, 89.38060051687816, 115.97099403494141 })]
    [InlineData(Interpolation.MonotoneCubic, new[] { 21.535853362364154, 35.207205746498175, 46.89064670308502, 53.71577009830775, 89.3286555098194, 115.96182132690522 })]
    public void Percentiles_agree_to_twelve_digits(Interpolation interpolation, double[] sizes)
    {
        var percentiles = With(Table, interpolation, 10m, 30m, 50m, 60m, 90m, 97m).Result().Percentiles;
        for (var i = 0; i < sizes.Length; i++)
        {
            percentiles[i].Relation.ShouldBe(Relation.Equal);
            percentiles[i].Micrometres.ShouldBe(sizes[i], 1e-12 * sizes[i]);
        }
    }

    [Theory]
    [InlineData(25, 14.468621441609281)]
    [InlineData(50, 54.680572902560804)]
    [InlineData(100, 93.51065267027356)]
    public void The_cubic_agrees_between_the_points(double size, double percent) =>
        With(Table, Interpolation.MonotoneCubic).Result().Curve.PassingPercentAt(size).ShouldNotBeNull().ShouldBe(percent, 1e-11);

    /// <summary>SciPy as above; 0, 30, 30, 80 and 100 % passing 20, 32, 45, 63 and 90 µm.</summary>
    [Theory]
    [InlineData(10, 22.16436883195363)]
    [InlineData(50, 52.8338009565667)]
    [InlineData(90, 71.6716931235046)]
    public void The_cubic_keeps_a_level_stretch_level(int percent, double size)
    {
        var curve = With(Requests.Given((20m, 0m), (32m, 30m), (45m, 30m), (63m, 80m), (90m, 100m)), Interpolation.MonotoneCubic).Result().Curve;
        curve.Percentile(percent).Micrometres.ShouldBe(size, 1e-11);
        curve.PassingPercentAt(40).ShouldBe(30);
    }

    [Fact]
    public void Two_points_make_the_cubic_straight_in_ln_x() =>
        With(Requests.Given((20m, 10m), (32m, 60m)), Interpolation.MonotoneCubic, 50m).Result().Percentiles[0]
            .Micrometres.ShouldBe(20 * Math.Pow(1.6, 0.8), 1e-12);

    /// <summary>
    /// A net shows its own distribution as one line, so that interpolation in it is exact: analytic_distributions.csv, computed with SciPy
    /// 1.10.1 from the closed forms.
    /// </summary>
    [Theory]
    [InlineData("lognormal x50=100 sigma_g=1.5", 100, 1.5)]
    [InlineData("lognormal x50=63 sigma_g=2.0", 63, 2.0)]
    [InlineData("lognormal x50=264 sigma_g=1.7", 264, 1.7)]
    [InlineData("RRSB x'=150 n=1.2", 150, 1.2)]
    [InlineData("RRSB x'=100 n=2.5", 100, 2.5)]
    [InlineData("RRSB x'=66.82268231 n=0.8645407622", 66.82268231, 0.8645407622)]
    public void A_net_gives_back_its_own_distribution(string name, double position, double shape)
    {
        var row = ReferenceFile.Rows("analytic_distributions.csv").Single(row => row["distribution"] == name);
        var logNormal = name.StartsWith("lognormal", StringComparison.Ordinal);
        var points = new[] { 0.02, 0.2, 0.9, 3.1, 20.0 }.Select(factor =>
        {
            var size = Math.Round((decimal)(factor * position), 3);
            var log = Math.Log((double)size / position);
            var passing = logNormal ? NormalDistribution.Below(log / Math.Log(shape)) : 1 - Math.Exp(-Math.Exp(shape * log));
            return (size, decimal.Round((decimal)(100 * passing), 24));
        }).Where(point => point.Item2 is > 0m and < 99.9999999m).ToArray();

        var result = With(Requests.Given(points), logNormal ? Interpolation.LogNormal : Interpolation.RosinRammler, 10m, 50m, 90m, 97m).Result();
        string[] columns = ["x10", "x50", "x90", "x97"];
        for (var i = 0; i < columns.Length; i++)
        {
            Printed.Like(row[columns[i]], result.Percentiles[i].Micrometres).ShouldBe(row[columns[i]], columns[i]);
        }

        Printed.Like(row["span"], result.Span.Value).ShouldBe(row["span"]);
    }

    [Theory]
    [InlineData(Interpolation.RosinRammler)]
    [InlineData(Interpolation.LogNormal)]
    public void Where_a_net_has_no_end_the_curve_is_straight_in_ln_x_and_says_so(Interpolation interpolation)
    {
        var request = Requests.Given((20m, 0m), (32m, 30m), (63m, 80m), (90m, 100m));
        var result = With(request, interpolation, 15m, 90m).Result();
        var straight = With(request, Interpolation.LogLinear, 15m, 90m).Result();
        result.Percentiles.ShouldBe(straight.Percentiles);
        result.Curve.PassingPercentAt(25).ShouldBe(straight.Curve.PassingPercentAt(25));
        result.Findings.Count(finding => finding.Code == FindingCodes.NetHasNoEnd).ShouldBe(2);
        straight.Findings.ShouldBeEmpty();
    }

    private static EvaluationRequest With(EvaluationRequest request, Interpolation interpolation, params decimal[] percentiles) =>
        request with { Settings = new EvaluationSettings { Interpolation = interpolation, Percentiles = percentiles } };
}

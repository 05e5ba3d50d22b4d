using System.Globalization;
using CsCheck;
using ParticleLims.Analysis.Distributions.Moments;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Distributions.Moments;

public sealed class MeanDiameterTests
{
    private const double Sphericity = 0.571;

    /// <summary>
    /// Crushed quartz, McCabe, Smith and Harriott, table 28.2 as quoted (mean_diameter_mccabe.csv), between 4 and 200 mesh, with the mean sizes printed there. In
    /// millimetres; the sums are over the mass fractions as they stand, so the moments are taken times their sum, 0.9925.
    /// </summary>
    private static readonly IReadOnlyList<(double Share, double Size)> Quartz = ReferenceFile.Rows("mean_diameter_mccabe.csv")
        .Where(row => row["opening_mm"] != "pan" && row.Has("Dmean_mm")).Select(row => ((double)row.Number("mass_fraction"), (double)row.Number("Dmean_mm"))).ToList();

    [Theory]
    [InlineData("sum x/D")]
    [InlineData("sum x/D^3")]
    [InlineData("sum x*D")]
    [InlineData("Aw mm2/g (/F)")]
    [InlineData("Nw 1/g (/F)")]
    [InlineData("DV mm = (1/sum x/D^3)^(1/3)")]
    [InlineData("Ds mm = 1/sum(x/D)")]
    [InlineData("Dw mm = sum xD")]
    public void The_mean_diameters_of_the_crushed_quartz_agree_to_the_last_digit(string quantity)
    {
        var (moments, whole) = (SizeMoments.OfSizes(Quartz), Quartz.Sum(size => size.Share));
        whole.ShouldBe(0.9925, 1e-12);
        var value = quantity switch
        {
            "sum x/D" => moments.Moment(-1) * whole,
            "sum x/D^3" => moments.Moment(-3) * whole,
            "sum x*D" => moments.Moment(1) * whole,
            "Aw mm2/g (/F)" => SpecificSurface.PerMass(moments.SauterMeanMicrometres, 1 / Sphericity, 0.00265),
            "Nw 1/g (/F)" => moments.Moment(-3) / (2 * 0.00265),
            "DV mm = (1/sum x/D^3)^(1/3)" => moments.Mean(3, 0) / Math.Cbrt(whole),
            "Ds mm = 1/sum(x/D)" => moments.SauterMeanMicrometres / whole,
            _ => moments.Mean(1, 3) * whole,
        };
        var printed = Result(quantity)["computed"];
        Printed.Like(printed, value).ShouldBe(printed);
    }

    /// <summary>The quoted solution prints the sphericity as "0.5 / 1"; its coefficient 3965 = 6/(0.571 · 0.00265) is right (a slip in print).</summary>
    [Fact]
    public void The_coefficient_of_the_quoted_solution_belongs_to_the_sphericity_0_571()
    {
        Printed.Like("3965.24", SpecificSurface.PerMass(1, 1 / Sphericity, 0.00265)).ShouldBe("3965.24");
        ReferenceFile.Text("mean_diameter_mccabe.csv").ShouldContain("misprints 0.571 as \"0.5 / 1\" (slip)");
    }

    /// <summary>
    /// "From memory" the book prints other last digits (0.8284, 8.8296, 1.677, 3309, 1679, 0.4838, 1.207, 1.677): they agree with ours to the 0.5 % that its rounded
    /// table allows.
    /// </summary>
    [Fact]
    public void The_answers_remembered_from_the_book_agree_to_half_a_percent()
    {
        var (moments, whole) = (SizeMoments.OfSizes(Quartz), Quartz.Sum(size => size.Share));
        (string Quantity, double Value)[] all =
        [
            ("sum x/D", moments.Moment(-1) * whole), ("sum x/D^3", moments.Moment(-3) * whole),
            ("Ds mm = 1/sum(x/D)", moments.SauterMeanMicrometres / whole), ("Dw mm = sum xD", moments.Mean(1, 3) * whole),
        ];
        foreach (var (quantity, value) in all)
        {
            var book = double.Parse(Result(quantity)["book (from memory)"], CultureInfo.InvariantCulture);
            value.ShouldBe(book, 0.005 * book, quantity);
        }
    }

    /// <summary>The same table from its openings: the middles differ from the printed ones by their rounding to 0.001 mm only.</summary>
    [Fact]
    public void The_middles_of_the_openings_give_the_printed_mean_sizes()
    {
        var rows = ReferenceFile.Rows("mean_diameter_mccabe.csv").Where(row => row["opening_mm"] != "pan").ToList();
        var points = rows.ConvertAll(row => (row.Number("opening_mm") * 1000, row.Number("cum_fraction_finer") * 100)).ToArray();
        var classes = Requests.Given(points).Result().Fractions;
        var moments = SizeMoments.Of(classes, ClassMean.ArithmeticMiddle).ShouldNotBeNull();
        moments.BelowPercent.ShouldBe(Ratio.FromDecimal(0.75m));
        moments.AbovePercent.ShouldBe(Ratio.Zero);
        (moments.Moment(1) / 1000).ShouldBe(SizeMoments.OfSizes(Quartz).Moment(1), 2e-4);
        (moments.Moment(-1) * 1000).ShouldBe(SizeMoments.OfSizes(Quartz).Moment(-1), 1e-3);
    }

    /// <summary>12x30 mesh carbon (mean_diameter_results.csv): the page prints 1.061 mm from products rounded to 0.1.</summary>
    [Fact]
    public void The_mean_of_the_carbon_is_the_published_one()
    {
        (double, double)[] sizes = [(1.5, 2.03), (25.1, 1.44), (50.2, 1.02), (22.5, 0.72), (1.1, 0)];
        var row = ReferenceFile.Rows("mean_diameter_results.csv").Single(row => row["quantity"].StartsWith("12x30", StringComparison.Ordinal));
        var mean = SizeMoments.OfSizes(sizes).Moment(1);
        row["computed"].ShouldStartWith(Printed.Like("1.061683", mean));
        row["book (from memory)"].ShouldStartWith("1.061 (FOUND");
        (106.5 / 100.4).ShouldBe(1.0608, 5e-5);
        mean.ShouldBe(1.061, 1e-3);
    }

    /// <summary>The question gives masses that add up to 98 and not 100 (mean_diameter_results.csv); the mean goes by their sum.</summary>
    [Fact]
    public void The_mean_of_the_granules_goes_by_the_sum_of_the_masses()
    {
        (double, double)[] sizes = [(12, 1800), (14, 1400), (30, 1100), (15, 900), (10, 700), (9, 450), (8, 150)];
        var row = ReferenceFile.Rows("mean_diameter_results.csv").Single(row => row["quantity"].StartsWith("granules", StringComparison.Ordinal));
        row["computed"].ShouldStartWith(Printed.Like("1019.8980", SizeMoments.OfSizes(sizes).Moment(1)));
    }

    /// <summary>
    /// Exact powers of a Gates-Gaudin-Schuhmann distribution with m = 1 have constant density: the classes give the closed form M(k) = (b^(k+1) - a^(k+1))/((k + 1)(b - a)).
    /// </summary>
    [Theory]
    [InlineData(-3, 2.8e-7)]
    [InlineData(-1, 0.00610860487916103)]
    [InlineData(1, 175)]
    [InlineData(2, 32500)]
    public void A_distribution_of_constant_density_has_the_moments_of_the_integral(int k, double expected)
    {
        var classes = Requests.Given((100m, 0m), (130m, 20m), (200m, 66.666666666666666666666667m), (250m, 100m)).Result().Fractions;
        SizeMoments.Of(classes)!.Moment(k).ShouldBe(expected, Math.Abs(expected) * 1e-12);
    }

    [Fact]
    public void Fine_classes_of_a_log_normal_distribution_have_its_moments()
    {
        // analytic_distributions.csv, lognormal x50 = 100 µm, sigma_g = 1.5; a hundred cuts from 20 to 500 µm.
        var model = new Analysis.ModelFits.FittedModel { Model = Analysis.ModelFits.Model.LogNormal, Method = default, SizeMicrometres = 100, Slope = 1 / Math.Log(1.5), Intercept = 0, RSquared = 1, PointsUsed = 2, PointsLeftOut = 0 };
        var sizes = Enumerable.Range(0, 100).Select(i => Math.Round((decimal)(20 * Math.Pow(25, i / 99.0)), 3)).ToList();
        var summary = Requests.Given(sizes.Select(size => (size, Math.Round((decimal)model.PassingPercentAt((double)size), 9))).ToArray()).Result().Summary.ShouldNotBeNull();
        summary.Moments!.SauterMeanMicrometres.ShouldBe(92.108682, 0.02);
        summary.Moments.Mean(1, 3).ShouldBe(108.5674, 0.02);
        summary.Moments.StandardDeviationMicrometres.ShouldBe(45.893071, 0.1);
        summary.Geometric!.MeanMicrometres.ShouldBe(100, 0.01);
        summary.Geometric.StandardDeviation.ShouldBe(1.5, 0.001);
        summary.Mode!.ModeMicrometres.ShouldBe(100, 3);
        summary.VolumeSpecificSurface!.Value.ShouldBe(6 / 92.108682, 2e-5);
    }

    [Fact]
    public void The_means_lie_between_the_finest_and_the_coarsest_aperture_and_grow_with_their_quantity() =>
        RandomRequests.Strict.Sample(points =>
        {
            var moments = Requests.Given(points).Result().Summary!.Moments.ShouldNotBeNull();
            var means = Enumerable.Range(0, 4).Select(r => moments.Mean(1, r)).ToList();
            var (finest, coarsest) = ((double)points.Min(point => point.Micrometres), (double)points.Max(point => point.Micrometres));
            means.Zip(means.Skip(1)).ShouldAllBe(pair => pair.First <= pair.Second * (1 + 1e-9));
            means.ShouldAllBe(mean => mean >= finest * (1 - 1e-9) && mean <= coarsest * (1 + 1e-9));
            moments.Mean(2, 0).ShouldBeInRange(means[0] * (1 - 1e-9), moments.Mean(3, 0) * (1 + 1e-9));
        });

    [Fact]
    public void An_order_without_meaning_is_refused()
    {
        var moments = SizeMoments.OfSizes([(1, 100)]);
        Should.Throw<ArgumentOutOfRangeException>(() => moments.Mean(0, 3));
        Should.Throw<ArgumentOutOfRangeException>(() => moments.Moment(7));
    }

    private static ReferenceFile.Row Result(string quantity) => ReferenceFile.Rows("mean_diameter_results.csv").Single(row => row["quantity"] == quantity);
}

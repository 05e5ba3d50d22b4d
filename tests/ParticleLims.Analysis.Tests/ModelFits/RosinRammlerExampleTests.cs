using System.Globalization;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.ReferenceData;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.ModelFits;

/// <summary>
/// Sources stand in rrsb_examples.csv: Doll_A, calculation sheet by A. Doll, 2017-01-27 (scribd 337702982); coal_dust, fayllar.org; two_point,
/// myengineeringtools.com; x150_n1.2, modsimminpro.blogspot.com. Columns "computed" are SciPy and numpy from the same points.
/// </summary>
public sealed class RosinRammlerExampleTests
{
    [Theory]
    [InlineData("n (slope of ln(-ln R) on ln x)")]
    [InlineData("intercept")]
    [InlineData("DN = 1/x' (1/um)")]
    [InlineData("x' (um)")]
    [InlineData("linear fit: x10")]
    [InlineData("linear fit: x50")]
    [InlineData("linear fit: x90")]
    [InlineData("linear fit: x97")]
    public void The_line_through_the_points_of_Doll_agrees_to_the_last_digit(string quantity)
    {
        var line = Fit("Doll_A");
        var value = quantity switch
        {
            "n (slope of ln(-ln R) on ln x)" => line.Slope,
            "intercept" => line.Intercept,
            "DN = 1/x' (1/um)" => 1 / line.SizeMicrometres,
            "x' (um)" => line.SizeMicrometres,
            _ => line.SizeAtPercent(double.Parse(quantity[^2..], CultureInfo.InvariantCulture)),
        };
        Compare("Doll_A", quantity, value);
    }

    [Fact]
    public void The_fitted_residues_of_Doll_agree_to_the_last_digit()
    {
        var line = Fit("Doll_A");
        foreach (var row in Points("Doll_A"))
        {
            var residue = 100 - line.PassingPercentAt((double)row.Number("aperture_um"));
            Printed.Like("0.0", residue).ShouldBe(row["published_fitted_R_pct"], row["aperture_um"]);
        }
    }

    /// <summary>REFERENCES.md, section 4: the number printed as "R" is its square.</summary>
    [Fact]
    public void The_R_of_Doll_is_the_square_of_the_correlation_coefficient()
    {
        var line = Fit("Doll_A");
        Result("Doll_A", "published \"R\"")["published"].ShouldBe("0.9971");
        Printed.Like("0.9971", line.RSquared).ShouldBe("0.9971");
        Printed.Like("0.997139", line.RSquared).ShouldBe("0.997139");
        Printed.Like("0.998568", Math.Sqrt(line.RSquared)).ShouldBe("0.998568");
        ReferenceFile.Text("REFERENCES.md").ShouldContain("| Doll_A | \"R\" 0.9971 | this is r^2 (r = 0.99857) |");
    }

    /// <summary>The sheet excludes 1000 µm at 0.0 % and the receiver at 100 % from its regression (rrsb_examples.csv).</summary>
    [Fact]
    public void Points_at_0_and_100_percent_take_no_part_and_are_counted()
    {
        var cuts = Cuts("Doll_A");
        cuts.Add(new CutInput { Aperture = Aperture.FromMicrometres(1000m), PassingPercent = 100m });
        cuts.Add(new CutInput { Aperture = Aperture.FromMicrometres(1m), PassingPercent = 0m });
        var line = Fit(cuts);
        line.PointsUsed.ShouldBe(10);
        line.PointsLeftOut.ShouldBe(2);
        Compare("Doll_A", "x' (um)", line.SizeMicrometres);
    }

    [Fact]
    public void The_line_through_the_coal_dust_points_agrees_to_the_last_digit()
    {
        var line = Fit("coal_dust");
        Compare("coal_dust", "n", line.Slope);
        Compare("coal_dust", "x' um", line.SizeMicrometres);
        Compare("coal_dust", "R90 %", 100 - line.PassingPercentAt(90));
        Compare("coal_dust", "R200 %", 100 - line.PassingPercentAt(200));
        line.SlopeStandardError.ShouldBeNull();
        line.Caution.ShouldNotBeNull().ShouldContain("Only 2 points");
    }

    /// <summary>That page calls 1 - exp(..) retained; 90 % finer than 850 µm and 30 % finer than 212 µm is what its numbers mean.</summary>
    [Fact]
    public void The_line_through_two_points_agrees_to_the_last_digit()
    {
        var line = Fit("two_point");
        Compare("two_point", "n", line.Slope);
        Compare("two_point", "x' um", line.SizeMicrometres);
        line.PassingPercentAt(850).ShouldBe(90, 1e-10);
        ReferenceFile.Text("REFERENCES.md").ShouldContain("| two_point page | R(x)=1-exp() called \"retained\" | it is the passing fraction |");
    }

    [Fact]
    public void A_model_with_size_150_and_slope_1_2_gives_the_published_values()
    {
        var model = new FittedModel
        {
            Model = Model.RosinRammler,
            Method = FitMethod.StraightLine,
            SizeMicrometres = 150,
            Slope = 1.2,
            Intercept = -1.2 * Math.Log(150),
            RSquared = 1,
            PointsUsed = 2,
            PointsLeftOut = 0,
        };
        Compare("x150_n1.2", "P(75 um)", model.PassingPercentAt(75) / 100);
        Compare("x150_n1.2", "P80 (um)", model.SizeAtPercent(80));
    }

    private static void Compare(string example, string quantity, double value)
    {
        var row = Result(example, quantity);
        Printed.Like(row["computed"], value).ShouldBe(row["computed"]);
        if (row.Has("published"))
        {
            Printed.Like(row["published"], value).ShouldBe(row["published"]);
        }
    }

    private static ReferenceFile.Row Result(string example, string quantity) =>
        ReferenceFile.Rows("rrsb_results.csv").Single(row => row["example"] == example && row["quantity"] == quantity);

    private static List<ReferenceFile.Row> Points(string example) =>
        ReferenceFile.Rows("rrsb_examples.csv").Where(row => row["example"] == example).ToList();

    private static FittedModel Fit(string example) => Fit(Cuts(example));

    private static FittedModel Fit(List<CutInput> cuts) => Engine
        .Evaluate(new EvaluationRequest { Procedure = Procedure.GivenDistribution, Cuts = cuts })
        .ShouldBeOfType<Evaluated>().Result.Models[0];

    private static List<CutInput> Cuts(string example) => Points(example).ConvertAll(row => new CutInput
    {
        Aperture = Aperture.FromMicrometres(row.Number("aperture_um")),
        PassingPercent = 100m - row.Number("R_pct"),
    });
}

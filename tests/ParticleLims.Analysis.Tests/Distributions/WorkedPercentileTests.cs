using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Distributions;

/// <summary>
/// Percentiles of the published stacks against worked_sieve_results.csv, which was computed with numpy from the published masses; the published
/// values themselves and their slips are those of REFERENCES.md, section 4.
/// </summary>
public sealed class WorkedPercentileTests
{
    private static readonly string[] Sizes = ["D10", "D30", "D50", "D60", "D90"];

    public static TheoryData<string> Examples => WorkedSieveExamples.Names;

    [Theory]
    [MemberData(nameof(Examples))]
    public void Linear_percentiles_agree_to_the_last_digit(string example) =>
        Compare(example, Interpolation.Linear, "computed, linear P vs x");

    [Theory]
    [MemberData(nameof(Examples))]
    public void Log_linear_percentiles_agree_to_the_last_digit(string example) =>
        Compare(example, Interpolation.LogLinear, "computed, linear P vs log x");

    /// <summary>
    /// Das, problem 2.1, as worked at scribd 525588050: prints D60 0.41 (0.4079798 before rounding), D10 0.09, Cu 4.56 from the rounded
    /// sizes, and slips with D30 0.19 (0.1954) and Cc 1.08 (1.024 unrounded, 0.978 from its own rounded sizes).
    /// </summary>
    [Fact]
    public void The_solution_of_das_2_1_prints_D30_and_Cc_wrongly()
    {
        var published = ReferenceFile.Rows("worked_sieve_results.csv").Single(row => row["kind"] == "published (scribd 525588050)");
        var result = WorkedSieveExamples.Evaluate("Das_2_1", Interpolation.Linear);
        var (d10, d30, d60) = (Millimetres(result, 10m), Millimetres(result, 30m), Millimetres(result, 60m));

        Printed.Like(published["D10"], d10).ShouldBe(published["D10"]);
        published["D60"].ShouldBe("0.41 (0.4079798 before rounding)");
        Printed.Like("0.4079798", d60).ShouldBe("0.4079798");
        Printed.Like("4.56", 0.41 / 0.09).ShouldBe(published["Cu"]);

        published["D30"].ShouldBe("0.19");
        Printed.Like("0.19", d30).ShouldBe("0.20");
        published["Cc"].ShouldBe("1.08");
        Printed.Like("1.08", Curvature(d10, d30, d60)).ShouldBe("1.02");
        Printed.Like("0.978", Curvature(0.09, 0.19, 0.41)).ShouldBe("0.978");
        ReferenceFile.Text("REFERENCES.md").ShouldContain("| Das_2_1 solution | Cc 1.08; D30 0.19 | Cc 0.978 with the printed D, 1.024 unrounded; D30 0.1954 by their rule |");
    }

    private static void Compare(string example, Interpolation interpolation, string kind)
    {
        var row = ReferenceFile.Rows("worked_sieve_results.csv").Single(row => row["example"] == example && row["kind"] == kind);
        var result = WorkedSieveExamples.Evaluate(example, interpolation);
        foreach (var size in Sizes)
        {
            var percentile = result.Percentiles.Single(p => p.Percent == decimal.Parse(size[1..], System.Globalization.CultureInfo.InvariantCulture));
            if (row.Has(size))
            {
                percentile.Relation.ShouldBe(Relation.Equal);
                Printed.Significant(percentile.Micrometres / 1000, 5).ShouldBe(row.Number(size), size);
            }
            else
            {
                percentile.Relation.ShouldBe(Relation.Below, size);
                percentile.Micrometres.ShouldBe(result.Cuts[0].Aperture.Nanometres / 1000.0);
            }
        }

        if (row.Has("Cu"))
        {
            var (d10, d30, d60) = (Millimetres(result, 10m), Millimetres(result, 30m), Millimetres(result, 60m));
            Printed.Like(row["Cu"], d60 / d10).ShouldBe(row["Cu"]);
            Printed.Like(row["Cc"], Curvature(d10, d30, d60)).ShouldBe(row["Cc"]);
        }
    }

    private static double Curvature(double d10, double d30, double d60) => d30 * d30 / (d10 * d60);

    private static double Millimetres(EvaluationResult result, decimal percent) =>
        result.Percentiles.Single(percentile => percentile.Percent == percent).Micrometres / 1000;
}

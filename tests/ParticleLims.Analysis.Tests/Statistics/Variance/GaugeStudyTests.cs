using System.Globalization;
using ParticleLims.Analysis.Statistics.Variance;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Variance;

/// <summary>The worked example of AIAG, Measurement Systems Analysis, 4th edition, as publicly quoted (gauge_rr_aiag.csv and gauge_rr_aiag_results.csv).</summary>
public sealed class GaugeStudyTests
{
    private const double ToTheEighth = 1e-8;

    [Fact]
    public void Every_result_of_the_published_study_is_met()
    {
        var study = GaugeStudy.Of(Cells());
        study.IsPooled.ShouldBeTrue();
        Meets(study.Analysis.Rows.SumOfSquares, "SS part (df 9)");
        Meets(study.Analysis.Columns.SumOfSquares, "SS appraiser (df 2)");
        Meets(study.Analysis.Interaction.SumOfSquares, "SS interaction (df 18)");
        Meets(study.Analysis.Within.SumOfSquares, "SS repeatability (df 60)");
        Meets(study.Analysis.Rows.MeanSquare, "MS part");
        Meets(study.Analysis.Columns.MeanSquare, "MS appraiser");
        Meets(study.Analysis.Interaction.MeanSquare, "MS interaction");
        Meets(study.Analysis.Within.MeanSquare, "MS repeatability");
        Meets(study.Analysis.InteractionF!.Value, "F interaction");
        Meets(study.Analysis.InteractionProbability!.Value, "p interaction", 1e-7);
        Meets(study.Error.MeanSquare, "pooled MS repeatability (df 78)");
        Meets(study.Repeatability, "EV sigma");
        Meets(study.Reproducibility, "AV sigma");
        study.Gauge.ShouldBe(0.302373, 2e-6, "published; the last digit is a slip, the squares of the published EV and AV sum to 0.302372");
        Meets(study.PartDeviation, "PV sigma");
        Meets(study.Total, "TV sigma");
        Meets(study.GaugePercent!.Value, "%GRR of study variation", 1e-5);
        Meets(study.TolerancePercent(8), "%tolerance GRR (6 sigma, tol 8)", 1e-4);
        Meets(study.DistinctCategories!.Value, "ndc 1.41*PV/GRR");
        study.ContributionPercent!.Value.ShouldBe(7.7621, 1e-4);
    }

    [Fact]
    public void The_interaction_kept_apart_leaves_the_larger_repeatability()
    {
        var study = GaugeStudy.Of(Cells(), poolAbove: 1);
        study.IsPooled.ShouldBeFalse();
        Meets(study.Repeatability, "EV sigma if interaction kept");
        study.InteractionDeviation.ShouldBe(0, "its mean square lies below that of the cells");
    }

    [Fact]
    public void The_order_of_parts_people_and_trials_does_not_matter()
    {
        var turned = Cells().AsEnumerable().Reverse().Select(part => part.AsEnumerable().Reverse().Select(cell => cell.AsEnumerable().Reverse().ToList()).ToList()).ToList();
        var (plain, other) = (GaugeStudy.Of(Cells()), GaugeStudy.Of(turned));
        other.Gauge.ShouldBe(plain.Gauge, 1e-14);
        other.PartDeviation.ShouldBe(plain.PartDeviation, 1e-14);
    }

    [Fact]
    public void Parts_that_are_measured_once_are_refused() => Should.Throw<ArgumentException>(() => GaugeStudy.Of((double[][][])[[[1], [2]], [[3], [4]]]));

    [Fact]
    public void Without_any_scatter_there_are_no_shares()
    {
        var study = GaugeStudy.Of((double[][][])[[[1, 1], [1, 1]], [[1, 1], [1, 1]]]);
        study.GaugePercent.ShouldBeNull();
        study.DistinctCategories.ShouldBeNull();
    }

    private static void Meets(double value, string quantity, double tolerance = ToTheEighth)
    {
        var row = ReferenceFile.Rows("gauge_rr_aiag_results.csv").Single(row => row["quantity"] == quantity);
        value.ShouldBe(double.Parse(row["computed"], CultureInfo.InvariantCulture), tolerance, quantity);
        if (double.TryParse(row["published"], CultureInfo.InvariantCulture, out var published))
        {
            value.ShouldBe(published, 5.1 * Math.Pow(10, -1 - Printed.Decimals(row["published"])), quantity);
        }
    }

    private static List<List<List<double>>> Cells() => ReferenceFile.Rows("gauge_rr_aiag.csv").GroupBy(row => row["part"])
        .Select(part => part.GroupBy(row => row["appraiser"]).Select(cell => cell.Select(row => (double)row.Number("value")).ToList()).ToList()).ToList();
}

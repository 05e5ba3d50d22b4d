using CsCheck;
using ParticleLims.Analysis.Statistics.Variance;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Variance;

public sealed class CrossedAnovaTests
{
    public static TheoryData<string> Sieves => [.. ReferenceFile.Rows("srm_1017b_homogeneity_anova.csv").Select(row => row["sieve"].Trim())];

    /// <summary>NIST's homogeneity study of SRM 1017b, bottles against runs; expected by aov() of R 4.2, not published by NIST.</summary>
    [Theory]
    [MemberData(nameof(Sieves))]
    public void Bottles_and_runs_of_the_glass_beads_part_as_computed_elsewhere(string sieve)
    {
        var anova = CrossedAnova.Of(GlassBeads.Bottles(sieve));
        var expected = GlassBeads.Expected(sieve);
        anova.Rows.SumOfSquares.ShouldBe(GlassBeads.Value(expected, "SS_bottle"), 1e-10);
        anova.Columns.SumOfSquares.ShouldBe(GlassBeads.Value(expected, "SS_run"), 1e-10);
        anova.Residual.SumOfSquares.ShouldBe(GlassBeads.Value(expected, "SS_res"), 1e-10);
        anova.RowF!.Value.ShouldBe(GlassBeads.Value(expected, "F_bottle"), 1e-9);
        anova.ColumnF!.Value.ShouldBe(GlassBeads.Value(expected, "F_run"), 1e-9);
        anova.RowProbability!.Value.ShouldBe(GlassBeads.Value(expected, "p_bottle"), 1e-12);
        anova.ColumnProbability!.Value.ShouldBe(GlassBeads.Value(expected, "p_run"), 1e-12);
        anova.InteractionF.ShouldBeNull();
    }

    [Fact]
    public void To_turn_the_table_changes_rows_and_columns() =>
        Gen.Double[-10, 10].Array[3].Array[4].Array[5].Sample(cells =>
        {
            var plain = CrossedAnova.Of(cells);
            var turned = CrossedAnova.Of(Enumerable.Range(0, 4).Select(j => cells.Select(row => row[j]).ToArray()).ToArray());
            turned.Rows.SumOfSquares.ShouldBe(plain.Columns.SumOfSquares, 1e-10);
            turned.Interaction.SumOfSquares.ShouldBe(plain.Interaction.SumOfSquares, 1e-10);
            turned.Within.SumOfSquares.ShouldBe(plain.Within.SumOfSquares, 1e-10);
        });

    [Fact]
    public void A_table_with_a_hole_is_refused() => Should.Throw<ArgumentException>(() => CrossedAnova.Of((double[][][])[[[1], [2]], [[3], [4, 5]]]));
}

using CsCheck;
using ParticleLims.Analysis.Statistics.Variance;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Variance;

public sealed class NestedAnovaTests
{
    /// <summary>Davies and Goldsmith's paste (nested_pastes.csv): casks in batches, two tests each. Mean squares by aov() of R 4.2: 27.489, 17.545, 0.678; components published with the data.</summary>
    [Fact]
    public void The_paste_has_its_published_components()
    {
        var anova = NestedAnova.Of(Pastes());
        Math.Round(anova.Groups.MeanSquare, 3).ShouldBe(27.489);
        Math.Round(anova.Subgroups.MeanSquare, 3).ShouldBe(17.545);
        Math.Round(anova.Within.MeanSquare, 3).ShouldBe(0.678);
        Math.Round(anova.SubgroupVariance, 3).ShouldBe(8.434);
        Math.Round(anova.GroupVariance, 3).ShouldBe(1.657);
        anova.TotalDeviation.ShouldBe(Math.Sqrt(8.4337 + 1.6573 + 0.6780), 1e-4);
        anova.IsClamped.ShouldBeFalse();
    }

    [Fact]
    public void Sums_of_squares_and_degrees_of_freedom_add_up() =>
        Groups().Sample(groups =>
        {
            var anova = NestedAnova.Of(groups);
            var all = groups.SelectMany(group => group.SelectMany(subgroup => subgroup)).ToArray();
            var mean = all.Average();
            (anova.Groups.SumOfSquares + anova.Subgroups.SumOfSquares + anova.Within.SumOfSquares).ShouldBe(all.Sum(value => (value - mean) * (value - mean)), 1e-8);
            (anova.Groups.DegreesOfFreedom + anova.Subgroups.DegreesOfFreedom + anova.Within.DegreesOfFreedom).ShouldBe(all.Length - 1);
        });

    /// <summary>The expected mean squares of unequal numbers: on average over many draws the components come back.</summary>
    [Fact]
    public void The_components_of_an_unequal_design_come_back_on_average()
    {
        int[][] design = [[2, 3, 1], [4, 2], [2, 2, 2, 1], [3, 1], [2, 5, 2]];
        var random = new Normals(20_261_125);
        double within = 0, subgroup = 0, group = 0;
        const int Draws = 4_000;
        for (var i = 0; i < Draws; i++)
        {
            var anova = NestedAnova.Of(Draw(design, random));
            within += anova.WithinVariance / Draws;
            subgroup += anova.SubgroupVariance / Draws;
            group += anova.GroupVariance / Draws;
        }

        within.ShouldBe(1, 0.03);
        subgroup.ShouldBe(16, 0.8);
        group.ShouldBe(100, 7);
    }

    [Fact]
    public void Too_few_values_are_refused()
    {
        Should.Throw<ArgumentException>(() => NestedAnova.Of((double[][][])[[[1, 2]]]));
        Should.Throw<ArgumentException>(() => NestedAnova.Of((double[][][])[[[1, 2]], [[3, 4]]]));
        Should.Throw<ArgumentException>(() => NestedAnova.Of((double[][][])[[[1], [2]], [[3], [4]]]));
    }

    private static double[][][] Draw(int[][] design, Normals random) => design.Select(group =>
    {
        var ofGroup = 10 * random.Next();
        return group.Select(count =>
        {
            var ofSubgroup = 4 * random.Next();
            return Enumerable.Range(0, count).Select(_ => ofGroup + ofSubgroup + random.Next()).ToArray();
        }).ToArray();
    }).ToArray();

    private static Gen<double[][][]> Groups() => Gen.Double[-100, 100].Array[2, 4].Array[2, 4].Array[2, 5];

    private static List<List<List<double>>> Pastes() => ReferenceFile.Rows("nested_pastes.csv").GroupBy(row => row["batch"])
        .Select(batch => batch.GroupBy(row => row["cask"]).Select(cask => cask.Select(row => (double)row.Number("strength")).ToList()).ToList()).ToList();
}

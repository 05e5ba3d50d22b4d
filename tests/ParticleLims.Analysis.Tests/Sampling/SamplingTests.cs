using CsCheck;
using ParticleLims.Analysis.Sampling;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Sampling;

/// <summary>The worked example of Wills, Mineral Processing Technology (1982), as publicly quoted (gy_sampling.csv).</summary>
public sealed class SamplingTests
{
    private static readonly GyConstant Ore = new()
    {
        Shape = 0.5, SizeRange = 0.25, LiberationCentimetres = 0.015, Mineralogical = GyConstant.MineralogicalFactor(0.05 / 0.866, 7.5, 2.65),
    };

    public static TheoryData<string> TopSizes => [.. ReferenceFile.Rows("gy_sampling.csv").Select(row => row["top_size_cm"])];

    [Fact]
    public void The_mineralogical_factor_is_that_of_the_example() => Ore.Mineralogical.ShouldBe(117.830023, 1e-6);

    [Theory]
    [MemberData(nameof(TopSizes))]
    public void The_smallest_samples_are_the_published_ones(string topSize)
    {
        var row = ReferenceFile.Rows("gy_sampling.csv").Single(row => row["top_size_cm"] == topSize);
        var size = (double)row.Number("top_size_cm");
        Ore.At(size).ShouldBe((double)row.Number("C_g_cm3"), 6e-6);
        var mass = FundamentalError.SmallestSampleGrams(Ore.At(size), size, 0.02, 0.95, stages: 4, safetyFactor: 2);
        mass.ShouldBe((double)row.Number("computed_z1.95996"), 1e-6 * mass + 5e-5);
        mass.ShouldBe((double)row.Number("published_mass_g"), 4e-5 * mass + 0.6 * Math.Pow(10, -Printed.Decimals(row["published_mass_g"])), "published with z = 1.96");
        FundamentalError.SmallestSampleGrams(Ore.At(size), size, 0.02).ShouldBe((double)row.Number("single_stage_no_safety_g"), 5e-5 * mass + 5e-5, "with z = 1.96");
    }

    /// <summary>Four stages of the published masses, made with a safety factor of two, leave 2 %/√2 = 1.4 % at 95 %.</summary>
    [Fact]
    public void The_four_stages_together_leave_the_published_error()
    {
        var stages = ReferenceFile.Rows("gy_sampling.csv").Select(row => new DivisionStage
        {
            Constant = Ore.At((double)row.Number("top_size_cm")),
            TopSizeCentimetres = (double)row.Number("top_size_cm"),
            SampleGrams = (double)row.Number("computed_z1.96"),
        }).ToList();
        (1.96 * FundamentalError.RelativeDeviation(stages)).ShouldBe(0.014142, 5e-6);
    }

    [Fact]
    public void The_whole_lot_has_no_error_and_half_of_it_half_the_variance()
    {
        FundamentalError.RelativeDeviation(10, 0.1, 50, 50).ShouldBe(0);
        FundamentalError.RelativeDeviation(10, 0.1, 50, 100).ShouldBe(FundamentalError.RelativeDeviation(10, 0.1, 50) / Math.Sqrt(2), 1e-15);
        Should.Throw<ArgumentOutOfRangeException>(() => FundamentalError.RelativeDeviation(10, 0.1, 50, 49));
    }

    [Fact]
    public void Smallest_sample_and_error_are_each_others_inverse() =>
        Gen.Double[0.1, 100].Select(Gen.Double[0.001, 3], Gen.Double[0.001, 0.3]).Sample(drawn =>
        {
            var (constant, size, error) = drawn;
            var mass = FundamentalError.SmallestSampleGrams(constant, size, error);
            (1.959963984540054 * FundamentalError.RelativeDeviation(constant, size, mass)).ShouldBe(error, 1e-12);
        });

    /// <summary>
    /// Against a drawing of particles: two sizes, each particle taken or not, so that the share of the coarse class scatters by the number of particles. 100 µm and 50 µm, half the mass each, ρ 2.5,
    /// f 0.5: simulated with a seed.
    /// </summary>
    [Fact]
    public void The_error_of_a_size_class_is_that_of_drawn_particles()
    {
        SampledClass[] classes = [new() { Share = 0.5, SizeMicrometres = 100 }, new() { Share = 0.5, SizeMicrometres = 50 }];
        const double Grams = 0.002;
        var coarse = 0.5 * Grams / (0.5 * 2.5 * 1e-6);
        var fine = coarse * 8;
        var random = new ParticleLims.Analysis.Tests.Statistics.Normals(5);
        var shares = Enumerable.Range(0, 20_000).Select(_ =>
        {
            var (many, few) = (fine + (Math.Sqrt(fine) * random.Next()), coarse + (Math.Sqrt(coarse) * random.Next()));
            return few * 8 / ((few * 8) + many);
        }).ToList();
        var deviation = ParticleLims.Analysis.Statistics.Summaries.SampleSummary.Of(shares).StandardDeviation!.Value / 0.5;
        SizeClassError.RelativeDeviation(classes, 0, 2.5, Grams).ShouldBe(deviation, 0.03 * deviation);
    }

    [Fact]
    public void Four_times_the_portion_halves_the_error_of_a_class()
    {
        SampledClass[] classes = [new() { Share = 0.02, SizeMicrometres = 125 }, new() { Share = 0.98, SizeMicrometres = 63 }];
        SizeClassError.RelativeDeviation(classes, 0, 2.7, 40).ShouldBe(SizeClassError.RelativeDeviation(classes, 0, 2.7, 10) / 2, 1e-12);
    }

    [Fact]
    public void Shares_that_do_not_sum_to_one_are_refused() =>
        Should.Throw<ArgumentException>(() => SizeClassError.RelativeDeviation([new SampledClass { Share = 0.4, SizeMicrometres = 100 }], 0, 2.5, 10));

    /// <summary>Finite numbers of any size give a number, or are refused; never NaN.</summary>
    [Fact]
    public void Wild_numbers_are_refused_or_answered() =>
        Gen.Double[-320, 308].Select(power => Math.Pow(10, power)).Array[5].Sample(
            drawn =>
            {
                double.IsNaN(Answer(() => FundamentalError.RelativeDeviation(drawn[0], drawn[1], drawn[2], drawn[3])) ?? 0).ShouldBeFalse();
                Answer(() => FundamentalError.RelativeDeviation(drawn[0], drawn[1], drawn[2], drawn[2])).ShouldBeOneOf(0, null);
                double.IsNaN(Answer(() => FundamentalError.SmallestSampleGrams(drawn[0], drawn[1], drawn[2], 0.95, 3, drawn[3])) ?? 0).ShouldBeFalse();
                double.IsNaN(Answer(() => SizeClassError.RelativeDeviation([new SampledClass { Share = 1, SizeMicrometres = drawn[0] }], 0, drawn[1], drawn[2], drawn[3])) ?? 0).ShouldBeFalse();
            },
            iter: 5_000);

    private static double? Answer(Func<double> compute)
    {
        try
        {
            return compute();
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}

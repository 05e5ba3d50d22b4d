using CsCheck;
using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Tests.Uncertainty;

/// <summary>JCGM 101:2008 (GUM Supplement 1), 9.2 and 9.4, against the exact answers that stand in ReferenceData/gum_examples.csv. The tolerances are five standard errors of a million trials.</summary>
public sealed class MonteCarloTests
{
    private const int Million = 1_000_000;

    /// <summary>9.2.2: u = 2, 95 % interval ±3.92.</summary>
    [Fact]
    public void A_sum_of_four_normal_inputs_is_normal() => Check(new TrialModels.Sum(false, 1, 1, 1, 1), 0, 2, -3.919928, 3.919928, 0.04);

    /// <summary>9.2.3: u = 2, 95 % interval ±3.88, exactly ±3.879407 (Irwin-Hall).</summary>
    [Fact]
    public void A_sum_of_four_rectangular_inputs_is_narrower() => Check(new TrialModels.Sum(true, 1, 1, 1, 1), 0, 2, -3.879407, 3.879407, 0.04);

    /// <summary>9.2.4: one input is ten times as wide; u = 10.148892 and ±17.015 exactly, where the law of propagation has ±19.9.</summary>
    [Fact]
    public void A_dominant_rectangular_input_gives_a_flat_distribution() => Check(new TrialModels.Sum(true, 1, 1, 1, 10), 0, 10.148892, -17.015, 17.015, 0.1);

    /// <summary>9.4.2.2: x1 = 0, in units of 1e-6: y = 50, u = 50, 95 % shortest [0, 149.787].</summary>
    [Fact]
    public void A_comparison_loss_at_zero_is_bounded_by_zero() => Check(new TrialModels.ComparisonLoss(0), 50e-6, 50e-6, 0, 149.787e-6, 1.2e-6);

    /// <summary>9.4.3: x1 = 0.010: y = 150, u = 111.80, shortest [0.0, 366.005]; the law of propagation has [-96, 296].</summary>
    [Fact]
    public void A_comparison_loss_near_zero_is_not_symmetric() => Check(new TrialModels.ComparisonLoss(0.010), 150e-6, 111.80e-6, 0, 366.005e-6, 2e-6);

    /// <summary>9.4.4: x1 = 0.050: y = 2550, u = 502.49, shortest [1593.57, 3548.57]. The printed lower end 1590 is rounded; the upper one was given from memory.</summary>
    [Fact]
    public void A_comparison_loss_far_from_zero_is_nearly_normal() => Check(new TrialModels.ComparisonLoss(0.050), 2550e-6, 502.49e-6, 1593.57e-6, 3548.57e-6, 20e-6);

    [Fact]
    public void Any_number_of_threads_gives_the_same_values()
    {
        var model = new TrialModels.Sum(false, 1, 2, 3);
        var alone = Trials(OneByOne).Run(model, 50_000);
        var together = Trials((count, work) => Parallel.For(0, count, work)).Run(model, 50_000);
        var backwards = Trials((count, work) =>
        {
            for (var i = count - 1; i >= 0; i--)
            {
                work(i);
            }
        }).Run(model, 50_000);
        together[0].ShouldBe(alone[0]);
        backwards[0].ShouldBe(alone[0]);
    }

    /// <summary>7.9.4: to one digit a few blocks are enough, to two many are needed, and neither depends on the threads.</summary>
    [Fact]
    public void The_adaptive_procedure_stops_when_the_digits_are_stable()
    {
        var model = new TrialModels.Sum(false, 1, 1, 1, 1);
        var rough = Trials(OneByOne).RunUntilStable(model, 3 * Million, 1)[0];
        var fine = Trials((count, work) => Parallel.For(0, count, work)).RunUntilStable(model, 3 * Million, 2)[0];
        rough.Length.ShouldBeInRange(20_000, 100_000);
        fine.Length.ShouldBeInRange(rough.Length + 10_000, 3 * Million);
        fine.Take(rough.Length).ShouldBe(rough);
        var summary = TrialSummary.Of(fine, 0.95);
        (summary.Low, summary.High).ShouldSatisfyAllConditions(
            interval => interval.Low.ShouldBe(-3.919928, 0.05),
            interval => interval.High.ShouldBe(3.919928, 0.05));
        Trials(OneByOne).RunUntilStable(model, 3 * Million, 2)[0].ShouldBe(fine);
    }

    [Fact]
    public void The_adaptive_procedure_ends_at_the_most_trials() =>
        Trials(OneByOne).RunUntilStable(new TrialModels.Sum(false, 1), 20_000, 2)[0].Length.ShouldBe(20_000);

    /// <summary>JCGM 101:2008, 7.9.2, examples: u = 0.35 to two digits: δ = 0.005; 12 to two: 0.5; 0.00035 to two: 0.000005; 2 to one digit: 0.5.</summary>
    [Theory]
    [InlineData(0.35, 2, 0.005)]
    [InlineData(12, 2, 0.5)]
    [InlineData(0.00035, 2, 0.000005)]
    [InlineData(2, 1, 0.5)]
    [InlineData(0.0996, 2, 0.005)]
    [InlineData(0, 2, 0)]
    public void The_numerical_tolerance_is_half_a_unit_of_the_last_digit(double u, int digits, double tolerance) =>
        NumericalTolerance.Of(u, digits).ShouldBe(tolerance, tolerance * 1e-12);

    /// <summary>By the definition in 7.7.4: all pairs so many places apart.</summary>
    [Fact]
    public void The_shortest_interval_is_the_nearest_pair_of_the_sorted_values() =>
        Gen.Double[-5, 5].Array[20, 400].Sample(values =>
        {
            var sorted = values.Order().ToArray();
            var within = (int)((0.95 * sorted.Length) + 0.5);
            var width = Enumerable.Range(0, Math.Max(1, sorted.Length - within)).Min(r => sorted[Math.Min(r + within, sorted.Length - 1)] - sorted[r]);
            var (low, high) = ShortestInterval.Of(values, 0.95);
            (high - low).ShouldBe(width, 1e-12);
        });

    [Fact]
    public void Values_that_are_all_the_same_have_an_interval_without_width() => ShortestInterval.Of([2, 2, 2], 0.95).ShouldBe((2, 2));

    private static void Check(ITrialModel model, double mean, double deviation, double low, double high, double within)
    {
        var summary = TrialSummary.Of(Trials((count, work) => Parallel.For(0, count, work)).Run(model, Million)[0], 0.95);
        summary.Mean.ShouldBe(mean, 5 * deviation / 1000);
        summary.StandardDeviation.ShouldBe(deviation, deviation * 0.006);
        summary.Low.ShouldBe(low, within);
        summary.High.ShouldBe(high, within);
    }

    private static MonteCarlo Trials(ForEachBlock forEach) => new(forEach, 0.95, seed: 1);

    private static void OneByOne(int count, Action<int> work)
    {
        for (var i = 0; i < count; i++)
        {
            work(i);
        }
    }
}

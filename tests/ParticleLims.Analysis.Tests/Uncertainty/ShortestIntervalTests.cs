using CsCheck;
using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Tests.Uncertainty;

/// <summary>Against a plain sort of all values, to the last bit.</summary>
public sealed class ShortestIntervalTests
{
    private static readonly Gen<double> Spread = Gen.OneOf(Gen.Double[-5, 5], Gen.Double[1, 1 + 1e-9], RandomRequests.OneOf(-2.0, 0, 3), Gen.Double[-1e9, 1e9]);

    [Fact]
    public void Numbers_are_put_in_order_however_they_are_spread() =>
        Spread.Array[1, 600].Sample(values =>
        {
            var ordered = new double[values.Length];
            ClassSort.Sort(values, ordered, values.Min(), values.Max(), ..);
            ordered.ShouldBe([.. values.Order()]);
        });

    [Fact]
    public void Only_the_wanted_places_need_be_in_order() =>
        Gen.Select(Spread.Array[50, 600], Gen.Int[1, 40]).Sample((values, wanted) =>
        {
            var (ordered, plain) = (new double[values.Length], values.Order().ToArray());
            ClassSort.Sort(values, ordered, values.Min(), values.Max(), ..wanted);
            ordered[..wanted].ShouldBe(plain[..wanted]);
            ClassSort.Sort(values, ordered, values.Min(), values.Max(), ^wanted..);
            ordered[^wanted..].ShouldBe(plain[^wanted..]);
        });

    [Fact]
    public void The_interval_is_that_of_all_values_in_order() =>
        Gen.Select(Gen.Int[2, 30_000], Gen.Int[0, 3], Gen.Int, RandomRequests.OneOf(0.5, 0.9, 0.95, 0.99)).Sample(
            (count, kind, seed, coverage) =>
            {
                var values = Values(count, kind, seed);
                ShortestInterval.Of(values, coverage).ShouldBe(Plain(values, coverage));
            },
            iter: 200);

    /// <summary>The sample takes every so-manieth value: here each of them is great, so that no sampled bound holds enough of the least.</summary>
    [Fact]
    public void A_sample_that_misleads_costs_time_and_no_digit()
    {
        var values = Values(40_960, 0, 11);
        for (var i = 0; i < values.Length; i += 10)
        {
            values[i] = 1_000 + i;
        }

        ShortestInterval.Of(values, 0.95).ShouldBe(Plain(values, 0.95));
        ShortestInterval.Of([.. values.Select(value => -value)], 0.95).ShouldBe(Plain([.. values.Select(value => -value)], 0.95));
    }

    [Fact]
    public void The_tails_leave_none_out_that_belongs_to_them()
    {
        var values = Values(20_001, 1, 5);
        using var tails = TrialTails.Of(values, 1_000, values.Min(), values.Max());
        var (bottom, top) = (tails.Bottom.ToArray(), tails.Top.ToArray());
        bottom.Order().Take(1_000).ShouldBe(values.Order().Take(1_000));
        top.OrderDescending().Take(1_000).ShouldBe(values.OrderDescending().Take(1_000));
    }

    private static double[] Values(int count, int kind, int seed)
    {
        var values = new double[count];
        var random = unchecked((uint)seed);
        for (var i = 0; i < count; i++)
        {
            random = unchecked((random * 1_664_525) + 1_013_904_223);
            var uniform = random / 4_294_967_296.0;
            values[i] = kind switch
            {
                0 => uniform,
                1 => Math.Log(uniform + 1e-12),
                2 => Math.Round(uniform * 20),
                _ => i % 7 == 0 ? 1e6 * uniform : 50 + (1e-7 * uniform),
            };
        }

        return values;
    }

    private static (double Low, double High) Plain(double[] values, double coverage)
    {
        var sorted = values.Order().ToArray();
        var tail = Math.Max(1, sorted.Length - (int)((coverage * sorted.Length) + 0.5));
        var best = Enumerable.Range(0, tail).MinBy(r => sorted[sorted.Length - tail + r] - sorted[r]);
        return (sorted[best], sorted[sorted.Length - tail + best]);
    }
}

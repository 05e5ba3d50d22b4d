using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Tests.Uncertainty;

public sealed class TrialRandomTests
{
    /// <summary>What the reference implementation of xoshiro256++ (Blackman and Vigna, prng.di.unimi.it) gives from the state 1, 2, 3, 4, as quoted in the tests of public ports of it.</summary>
    private static readonly ulong[] Reference =
    [
        41943041, 58720359, 3588806011781223, 3591011842654386, 9228616714210784205, 9973669472204895162, 14011001112246962877, 12406186145184390807, 15849039046786891736, 10450023813501588000,
    ];

    [Fact]
    public void The_first_stream_is_that_of_the_published_generator()
    {
        var random = TrialRandom.ForBlocks([1UL, 2UL, 3UL, 4UL], 1)[0];
        foreach (var expected in Reference)
        {
            random.Next()[0].ShouldBe(expected);
        }
    }

    [Fact]
    public void Streams_and_blocks_have_numbers_of_their_own()
    {
        var seen = new HashSet<ulong>();
        foreach (var block in TrialRandom.ForBlocks(1, 50))
        {
            var random = block;
            for (var i = 0; i < 100; i++)
            {
                var next = random.Next();
                for (var lane = 0; lane < TrialRandom.Lanes; lane++)
                {
                    seen.Add(next[lane]).ShouldBeTrue();
                }
            }
        }
    }

    [Fact]
    public void More_blocks_leave_the_first_ones_as_they_are()
    {
        var (few, many) = (TrialRandom.ForBlocks(7, 3)[2], TrialRandom.ForBlocks(7, 9)[2]);
        few.Next().ShouldBe(many.Next());
    }

    [Fact]
    public void Another_seed_gives_other_numbers() =>
        TrialRandom.ForBlocks(1, 1)[0].Next().ShouldNotBe(TrialRandom.ForBlocks(2, 1)[0].Next());

    /// <summary>Moments of the even and of the normal distribution, within five of their own standard errors.</summary>
    [Fact]
    public void Columns_have_the_moments_of_their_distributions()
    {
        const int Count = 2_000;
        var random = TrialRandom.ForBlocks(3, 1)[0];
        double[] normal = [], rectangular = [];
        for (var i = 0; i < Count; i++)
        {
            var (first, second) = (new double[TrialColumn.Length], new double[TrialColumn.Length]);
            TrialColumn.AddNormal(first, 2, ref random);
            TrialColumn.AddRectangular(second, 2, ref random);
            if (i == 0)
            {
                (normal, rectangular) = (new double[Count * TrialColumn.Length], new double[Count * TrialColumn.Length]);
            }

            first.CopyTo(normal, i * TrialColumn.Length);
            second.CopyTo(rectangular, i * TrialColumn.Length);
        }

        var n = normal.Length;
        normal.Average().ShouldBe(0, 5 * 2 / Math.Sqrt(n));
        normal.Average(value => value * value).ShouldBe(4, 5 * 4 * Math.Sqrt(2.0 / n));
        normal.Average(value => value * value * value * value).ShouldBe(48, 5 * 16 * Math.Sqrt(96.0 / n));
        ((double)normal.Count(value => Math.Abs(value) > 3.919928)).ShouldBe(0.05 * n, 5 * Math.Sqrt(0.05 * 0.95 * n));
        rectangular.Average().ShouldBe(0, 5 * 2 / Math.Sqrt(n));
        rectangular.Average(value => value * value).ShouldBe(4, 5 * Math.Sqrt(0.8 * 16 / n));
        rectangular.Max(Math.Abs).ShouldBeInRange(3.45, 2 * Math.Sqrt(3));
    }
}

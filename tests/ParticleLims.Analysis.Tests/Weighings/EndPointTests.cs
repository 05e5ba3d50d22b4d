using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Weighings;

/// <summary>The rules' numbers stand in ReferenceData/rules_and_limits.csv with how each was read.</summary>
public sealed class EndPointTests
{
    private static readonly Mass FiftyGrams = Mass.FromGrams(50m);

    /// <summary>USP 786 and Ph. Eur. 2.9.38, from memory.</summary>
    [Theory]
    [InlineData(10.0, 9.5, true)]
    [InlineData(10.0, 9.49, false)]
    [InlineData(10.0, 10.5, true)]
    [InlineData(10.0, 10.51, false)]
    [InlineData(4.0, 3.9, true)]
    [InlineData(1.0, 0.9, true)]
    [InlineData(2.0, 1.6, true)]
    [InlineData(2.0, 1.59, false)]
    [InlineData(4.0, 3.2, false)]
    [InlineData(0.0, 0.0, true)]
    public void The_pharmacopoeias_end_is_5_percent_or_a_tenth_of_a_gram_with_an_easement_for_small_residues(double before, double after, bool reached) =>
        EndPointRule.Pharmacopoeia.IsReached(Mass.FromGrams((decimal)before), Mass.FromGrams((decimal)after), FiftyGrams).ShouldBe(reached);

    [Fact]
    public void A_small_sieve_has_10_percent()
    {
        EndPointRule.PharmacopoeiaSmallSieve.IsReached(Mass.FromGrams(5m), Mass.FromGrams(4.5m), Mass.FromGrams(10m)).ShouldBeTrue();
        EndPointRule.Pharmacopoeia.IsReached(Mass.FromGrams(5m), Mass.FromGrams(4.5m), Mass.FromGrams(10m)).ShouldBeFalse();
    }

    /// <summary>ASTM C136/C136M: 0.5 % of the whole in one minute; of 300 g, 1.5 g.</summary>
    [Fact]
    public void Aggregate_has_half_a_percent_of_the_whole()
    {
        EndPointRule.Aggregate.IsReached(Mass.FromGrams(100m), Mass.FromGrams(98.5m), Mass.FromGrams(300m)).ShouldBeTrue();
        EndPointRule.Aggregate.IsReached(Mass.FromGrams(100m), Mass.FromGrams(98.499m), Mass.FromGrams(300m)).ShouldBeFalse();
    }

    [Fact]
    public void A_smaller_change_never_takes_the_end_away() => Gen.Select(Gen.Int[0, 20_000], Gen.Int[0, 20_000], Gen.Int[0, 20_000]).Sample((before, one, other) =>
    {
        var (near, far) = Math.Abs(one - before) <= Math.Abs(other - before) ? (one, other) : (other, one);
        var rule = EndPointRule.Pharmacopoeia with { SmallResiduePercent = null };
        if (rule.IsReached(Milligrams(before), Milligrams(far), FiftyGrams))
        {
            rule.IsReached(Milligrams(before), Milligrams(near), FiftyGrams).ShouldBeTrue();
        }
    });

    [Fact]
    public void A_rule_that_states_nothing_ends_only_with_no_change_at_all()
    {
        new EndPointRule { MostChangePercent = 1m }.IsReached(Mass.Zero, Mass.FromGrams(1m), FiftyGrams).ShouldBeFalse();
        Should.Throw<ArgumentOutOfRangeException>(() => EndPointRule.Aggregate.IsReached(Mass.Zero, Mass.Zero, Mass.Zero));
    }

    private static Mass Milligrams(int milligrams) => Mass.FromMicrograms(1_000L * milligrams);
}

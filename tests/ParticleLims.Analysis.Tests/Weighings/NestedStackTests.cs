using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Weighings;

public sealed class NestedStackTests
{
    private static readonly EvaluationRequest Stack = Requests.Of(
        Procedure.NestedStack,
        Requests.Cut(250m, 300m, null, 310m),
        Requests.Cut(125m, 300m, null, 330m)) with
    {
        Receiver = new ReceiverInput { Empty = Mass.FromGrams(400m), After = Mass.FromGrams(409m) },
        Portion = Mass.FromGrams(50m),
    };

    /// <summary>docs/science/nested-stack.md, worked number.</summary>
    [Fact]
    public void By_the_sum_of_the_fractions_a_loss_counts_nowhere()
    {
        var result = Stack.Result();
        result.Passing(125m).ShouldBe(Ratio.Of(900, 49));
        result.Passing(250m).ShouldBe(Ratio.Of(3900, 49));
        result.RecoveryPercent.ShouldBe(Requests.Percent(98m));
        result.Cuts[0].Portion.ShouldBe(Mass.FromGrams(49m));
    }

    /// <summary>docs/science/nested-stack.md, worked number.</summary>
    [Fact]
    public void By_the_portion_a_loss_counts_as_passing()
    {
        var result = (Stack with { Settings = new EvaluationSettings { Basis = PercentBasis.Portion } }).Result();
        result.Passing(125m).ShouldBe(Requests.Percent(20m));
        result.Passing(250m).ShouldBe(Requests.Percent(80m));
        result.RecoveryPercent.ShouldBe(Requests.Percent(98m));
    }

    [Fact]
    public void A_recovery_below_the_method_is_a_finding_and_one_on_it_is_not()
    {
        (Stack with { Settings = new EvaluationSettings { MinimumRecoveryPercent = 98m } }).Result().Findings.ShouldBeEmpty();
        (Stack with { Settings = new EvaluationSettings { MinimumRecoveryPercent = 98.01m } }).Result()
            .Findings.ShouldHaveSingleItem().Code.ShouldBe(FindingCodes.RecoveryLow);
    }

    [Fact]
    public void More_than_was_put_on_is_a_finding_by_the_sum_and_refused_by_the_portion()
    {
        var much = Stack with { Portion = Mass.FromGrams(39m) };
        much.Result().Findings.ShouldHaveSingleItem().Code.ShouldBe(FindingCodes.RecoveryAboveWhole);
        (much with { Settings = new EvaluationSettings { Basis = PercentBasis.Portion } }).Refusal().Code.ShouldBe(FindingCodes.MassGained);
    }

    [Fact]
    public void The_basis_must_have_been_weighed()
    {
        (Stack with { Receiver = null }).Refusal().Code.ShouldBe(FindingCodes.ReceiverMissing);
        (Stack with { Portion = null, Settings = new EvaluationSettings { Basis = PercentBasis.Portion } }).Refusal().Code.ShouldBe(FindingCodes.PortionMissing);
        (Stack with { Portion = null }).Result().RecoveryPercent.ShouldBeNull();
        (Stack with { Portion = Mass.Zero }).Refusal().Code.ShouldBe(FindingCodes.PortionZero);
    }

    [Fact]
    public void A_stack_that_holds_nothing_is_refused()
    {
        var empty = Requests.Of(Procedure.NestedStack, Requests.Cut(125m, 300m, null, 300m)) with
        {
            Receiver = new ReceiverInput { Empty = Mass.FromGrams(400m), After = Mass.FromGrams(400m) },
        };
        empty.Refusal().Code.ShouldBe(FindingCodes.PortionZero);
    }

    [Fact]
    public void A_lighter_receiver_is_refused()
    {
        var refusal = (Stack with { Receiver = new ReceiverInput { Empty = Mass.FromGrams(400m), After = Mass.FromGrams(399m) } }).Refusal();
        refusal.Code.ShouldBe(FindingCodes.ResidueBelowZero);
        refusal.Member.ShouldBe("receiver.afterGrams");
    }

    [Fact]
    public void A_loaded_sieve_has_no_meaning_in_a_stack() =>
        (Stack with { Cuts = [Requests.Cut(125m, 300m, 330m, 310m)] }).Refusal().Code.ShouldBe(FindingCodes.NotApplicable);
}

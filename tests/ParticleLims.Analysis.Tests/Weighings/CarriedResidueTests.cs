using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Weighings;

public sealed class CarriedResidueTests
{
    /// <summary>docs/science/carried-residue.md, worked number.</summary>
    [Fact]
    public void Passing_refers_to_the_one_portion_on_the_finest_sieve()
    {
        var result = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(63m, 310m, null, 312.5m),
            Requests.Cut(32m, 300m, 325m, 315m),
            Requests.Cut(90m, 320m, null, 320.1m)).Result();
        result.Cuts.Select(cut => cut.PassingPercent).ShouldBe([Requests.Percent(40m), Requests.Percent(90m), Requests.Percent(99.6m)]);
        result.Cuts.ShouldAllBe(cut => cut.Portion == Mass.FromGrams(25m));
        result.TransferLosses.ShouldBeEmpty();
        result.Findings.ShouldBeEmpty();
    }

    /// <summary>docs/science/carried-residue.md, worked number with a transfer loss.</summary>
    [Fact]
    public void A_transfer_loss_is_reported_limited_and_put_back_in_proportion_if_the_method_says_so()
    {
        var request = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 315m),
            Requests.Cut(63m, 310m, 324.5m, 312.9m)) with
        {
            Settings = new EvaluationSettings { MaximumTransferLossPercent = 1.9m },
        };
        var result = request.Result();
        var loss = result.TransferLosses.ShouldHaveSingleItem();
        loss.Lost.ShouldBe(Mass.FromGrams(0.5m));
        loss.PercentOfPortion.ShouldBe(Requests.Percent(2m));
        result.Passing(63m).ShouldBe(Requests.Percent(88.4m));
        result.Findings.Select(finding => finding.Code).ShouldBe([FindingCodes.TransferLoss, FindingCodes.TransferLossHigh]);
        result.Findings[1].Message.ShouldContain("2.00 %");

        var putBack = request with { Settings = new EvaluationSettings { TransferLoss = TransferLossRule.PutBackInProportion } };
        putBack.Result().Passing(63m).ShouldBe(Requests.Percent(88m));
        putBack.Result().Cuts[1].Residue.ShouldBe(Mass.FromGrams(2.9m));
    }

    [Fact]
    public void A_limit_on_what_was_not_weighed_is_a_finding()
    {
        var result = (Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 315m),
            Requests.Cut(63m, 310m, null, 312.9m)) with
        {
            Settings = new EvaluationSettings { MaximumTransferLossPercent = 1m, MinimumRecoveryPercent = 99m },
        }).Result();
        result.Findings.Select(finding => finding.Code).ShouldBe([FindingCodes.RecoveryUnknown, FindingCodes.TransferLossUnknown]);
    }

    [Fact]
    public void A_residue_that_grew_from_sieve_to_sieve_is_refused()
    {
        var refusal = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 302m),
            Requests.Cut(63m, 310m, null, 312.1m)).Refusal();
        refusal.Code.ShouldBe(FindingCodes.MassGained);
        refusal.Member.ShouldBe("cuts[1].afterGrams");
        refusal.Message.ShouldContain("302.0000 g after sieving");
        refusal.Message.ShouldContain("312.1000 g after sieving");
    }

    [Fact]
    public void A_residue_that_grew_on_the_way_is_refused()
    {
        var refusal = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 302m),
            Requests.Cut(63m, 310m, 312.1m, 311m)).Refusal();
        refusal.Code.ShouldBe(FindingCodes.MassGained);
        refusal.Member.ShouldBe("cuts[1].loadedGrams");
    }

    [Fact]
    public void A_growth_that_the_weighings_explain_is_set_level()
    {
        var result = (Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 302m),
            Requests.Cut(63m, 310m, null, 312.005m)) with
        {
            WeighingStandardUncertainty = Mass.FromGrams(0.001m),
        }).Result();
        result.Passing(63m).ShouldBe(result.Passing(32m));
        result.Findings.ShouldContain(finding => finding.Code == FindingCodes.ResidueClamped);
    }

    [Fact]
    public void The_finest_sieve_must_be_weighed_loaded()
    {
        var refusal = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(63m, 310m, 335m, 312.5m),
            Requests.Cut(32m, 300m, null, 315m)).Refusal();
        refusal.Code.ShouldBe(FindingCodes.MassMissing);
        refusal.Member.ShouldBe("cuts[1].loadedGrams");
        refusal.Message.ShouldBe("The loaded sieve 32 µm was not weighed: its mass is missing.");
    }

    [Fact]
    public void Recovery_counts_what_stayed_on_the_coarsest_sieve_and_what_was_collected()
    {
        var request = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 315m),
            Requests.Cut(63m, 310m, null, 312.5m)) with
        {
            Collected = Mass.FromGrams(22m),
        };
        request.Result().RecoveryPercent.ShouldBe(Requests.Percent(98m));
    }
}

using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>The method says what becomes of a balance that was not checked on the day, and of a residue under its minimum weight.</summary>
public sealed class BalanceRuleTests
{
    [Theory]
    [EachDatabase]
    public async Task A_run_keeps_what_made_its_balance_fit(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        var run = (await small.Bench().ViewAsync(lot.RunId)).Run;
        run.BalanceMinimum.ShouldBe(Mass.FromGrams(2m));
        run.BalanceThen!.ShouldStartWith("in service; inspected ");
        run.BalanceThen.ShouldContain($"{Mass.Zero} off {Mass.FromGrams(100m)}");
        run.BalanceThen.ShouldEndWith($"s {Mass.FromGrams(0.001m)}, minimum weight {Mass.FromGrams(2m)}");
        run.SievingUnitThen.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_method_can_let_an_unchecked_balance_weigh_and_the_reviewer_reads_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var method = await small.WithMethodAsync(small.Calcite, draft => draft with { UncheckedBalance = UncheckedBalance.Flagged });
        var (usual, lenient) = (await small.BookInAsync(small.Starch), await small.BookInAsync(method));
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(1));
        await laboratory.ShouldRefuseAsync("balance-unfit", () => small.Bench().StartAsync(usual.RunId, usual.Method));
        (await ChoiceAsync(small, usual)).OnlyCheckMissing.ShouldBeTrue();
        (await ChoiceAsync(small, lenient)).Unfit.ShouldBeNull();
        await small.Bench().CarryOutAsync(lenient.RunId, method, Powder.Calcite);
        var view = await small.Bench().ViewAsync(lenient.RunId);
        view.Run.BalanceThen!.ShouldContain("not checked on this day");
        view.Run.FindingsInWords!.ShouldContain("The balance had not passed its check on a day on which masses were taken from it");
    }

    [Theory]
    [EachDatabase]
    public async Task A_residue_under_the_minimum_weight_is_a_finding_where_the_method_says_so(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var stated = await small.BookInAsync(small.Calcite);
        var method = await small.WithMethodAsync(small.Calcite, draft => draft with { SmallResidue = SmallResidue.Flagged });
        var flagged = await small.BookInAsync(method);
        await small.Bench().CarryOutAsync(flagged.RunId, method, Powder.Calcite);
        var run = (await small.Bench().ViewAsync(flagged.RunId)).Run;
        run.FindingsInWords!.ShouldContain($"The residue on the 45 µm sieve, {Mass.FromGrams(0.2m)}, lies under the minimum weight of the balance, {Mass.FromGrams(2m)}.");
        run.FindingsInWords!.ShouldContain("63 µm");
        run.FindingsInWords!.ShouldNotContain("32 µm");
        await small.Bench().CarryOutAsync(stated.RunId, small.Calcite, Powder.Calcite);
        (await small.Bench().ViewAsync(stated.RunId)).Run.FindingsInWords.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_balance_too_coarse_for_the_residues_that_the_last_runs_had_is_refused_where_the_method_says_so(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var method = await small.WithMethodAsync(small.Calcite, draft => draft with { SmallResidue = SmallResidue.Refused });
        var (first, second) = (await small.BookInAsync(method), await small.BookInAsync(method));
        await small.Bench().CarryOutAsync(first.RunId, method, Powder.Calcite);
        await small.Desk.AcceptAsync(first.RunId);
        var refusal = await laboratory.ShouldRefuseAsync("balance-unfit", () => small.Bench().StartAsync(second.RunId, method));
        refusal.Message.ShouldContain($"weighs well enough from {Mass.FromGrams(2m)} on; by the last runs of this method the smallest residue is near {Mass.FromGrams(0.02m)}");
        (await ChoiceAsync(small, second)).OnlyCheckMissing.ShouldBeFalse();
        var manager = small.People.QualityManager;
        await small.Get<FitnessOverriding>().AllowAsync(manager.Actor, second.RunId, small.BalanceId, "The finer one is at its calibration", await small.ProofAsync(manager), default);
        (await ChoiceAsync(small, second)).Unfit.ShouldBeNull();
        await small.Bench().StartAsync(second.RunId, method);

        var third = await small.BookInAsync(method);
        await using var data = laboratory.Data();
        await small.Get<BalanceTesting>().TestRepeatabilityAsync(
            small.People.LaboratoryManager.Actor, small.BalanceId, [.. Enumerable.Range(0, 10).Select(at => Mass.FromGrams(100m + (at % 2 * 0.020m)))], (await ChoiceAsync(small, third)).Balance.Version, null, default);
        (await laboratory.ShouldRefuseAsync("balance-unfit", () => small.Bench().StartAsync(third.RunId, method))).Message.ShouldContain("the method asks for test portions from");
    }

    private static async Task<BalanceChoice> ChoiceAsync(SmallLaboratory small, TestLot lot) =>
        (await small.Get<RunChoosing>().ForAsync(small.People.Technician.Actor, lot.RunId, default))!.Balances.ShouldHaveSingleItem();
}

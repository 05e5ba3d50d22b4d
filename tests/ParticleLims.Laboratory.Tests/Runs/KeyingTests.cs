using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>A mass is keyed only where the laboratory allows it, is checked twice, and stays marked.</summary>
public sealed class KeyingTests
{
    private static readonly RunStep First = RunStep.Weigh(WeighingKind.Empty, 1);

    [Theory]
    [EachDatabase]
    public async Task Nothing_is_keyed_unless_the_laboratory_allows_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await StartedAsync(laboratory, allow: false);
        await laboratory.ShouldRefuseAsync("keying-off", () => KeyAsync(laboratory, lot, new KeyedMass("260.123", "260.123", null)));
    }

    [Theory]
    [EachDatabase]
    public async Task A_mass_keyed_twice_is_a_weighing_that_says_so_in_the_run_the_record_and_the_findings(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await StartedAsync(laboratory);
        await KeyAsync(laboratory, lot, new KeyedMass(" 260.123", "260.123 ", null));
        var view = await laboratory.Small.Bench().ViewAsync(lot.RunId);
        var weighing = view.Run.Weighings.ShouldHaveSingleItem();
        (weighing.Mass, weighing.Decimals, weighing.WayIn).ShouldBe((Mass.FromGrams(260.123m), 3, WayIn.KeyedByHand));
        weighing.RawLine.ShouldBe("keyed by hand, twice: 260.123 g");
        view.Findings.ShouldHaveSingleItem().ShouldContain("keyed by hand");

        await using var data = laboratory.Data();
        var recorded = await data.Set<RecordEvent>().SingleAsync(one => one.Code == "runs.key-mass");
        recorded.Changes.ShouldContain("KeyedByHand");
        recorded.SubjectId.ShouldBe(lot.RunId);
    }

    [Theory]
    [EachDatabase("260.123", "260.124", "keyed-differs")]
    [EachDatabase("260.123", "260.1230", "keyed-differs")]
    [EachDatabase("260.123", null, "keyed-differs")]
    [EachDatabase("260.12", "260.12", "keyed-form")]
    [EachDatabase("260.1234", "260.1234", "keyed-form")]
    [EachDatabase("260,123", "260,123", "keyed-form")]
    [EachDatabase("-1.000", "-1.000", "keyed-form")]
    [EachDatabase("2e2", "2e2", "keyed-form")]
    [EachDatabase("", "", "keyed-form")]
    [EachDatabase("0.000", "0.000", "mass-not-positive")]
    [EachDatabase("621.000", "621.000", "overload")]
    public async Task A_mass_that_the_balance_cannot_have_shown_or_that_was_keyed_differently_is_refused(DatabaseKind kind, string first, string? second, string code)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await StartedAsync(laboratory);
        await laboratory.ShouldRefuseAsync(code, () => KeyAsync(laboratory, lot, new KeyedMass(first, second, null)));
    }

    [Theory]
    [EachDatabase]
    public async Task A_second_person_confirms_by_name_and_password_and_does_not_review_the_run(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await StartedAsync(laboratory);
        await KeyAsync(laboratory, lot, new KeyedMass("260.123", null, await ProveAsync(small, small.People.Reviewer)));
        var bench = small.Bench();
        var weighing = (await bench.ViewAsync(lot.RunId)).Run.Weighings.ShouldHaveSingleItem();
        (weighing.ConfirmedById, weighing.ConfirmedByName).ShouldBe((small.People.Reviewer.Id, small.People.Reviewer.FullName));
        weighing.RawLine.ShouldBe($"keyed by hand, confirmed by {small.People.Reviewer.FullName}: 260.123 g");

        await bench.FinishAsync(lot.RunId, Powder.Calcite);
        await bench.SubmitAsync(lot.RunId);
        var version = (await bench.ViewAsync(lot.RunId)).Run.Version;
        var proof = await small.ProofAsync(small.People.Reviewer);
        await laboratory.ShouldRefuseAsync("own-work", () => small.Get<RunReview>().AcceptAsync(small.People.Reviewer.Actor, lot.RunId, proof, version, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_confirms_for_themselves_twice_or_without_knowing_the_bench(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await StartedAsync(laboratory);
        await laboratory.ShouldRefuseAsync("keyed-alone", async () => await KeyAsync(laboratory, lot, new KeyedMass("260.123", null, await ProveAsync(small, small.People.Technician))));
        await laboratory.ShouldRefuseAsync("keyed-confirmer", async () => await KeyAsync(laboratory, lot, new KeyedMass("260.123", null, await ProveAsync(small, small.People.Customer))));
        var used = await ProveAsync(small, small.People.Reviewer);
        await KeyAsync(laboratory, lot, new KeyedMass("260.123", null, used));
        var mistaken = (await small.Bench().ViewAsync(lot.RunId)).Run.Weighings.Single();
        await laboratory.ShouldRefuseAsync("secret-not-proved", () => small.Get<RunKeying>().KeyAgainAsync(
            small.People.Technician.Actor, lot.RunId, mistaken.Id, new KeyedMass("260.124", null, used), "Misread the display", "again", default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_reading_that_came_by_another_way_than_the_balances_own_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await StartedAsync(laboratory);
        await laboratory.ShouldRefuseAsync("other-way", () => small.Get<RunWeighing>().TakeAsync(
            small.People.Technician.Actor, lot.RunId, First, small.Bench().Reading(260.123m) with { WayIn = WayIn.Keyboard }, "typed", default));
    }

    private static Task<SecretProof> ProveAsync(SmallLaboratory small, TestPerson person) => small.Get<SignOn>().ProveOtherAsync(person.SignOnName, person.Password, Actor.Unknown("Bench 1"), default);

    private static Task<WeighingTaken> KeyAsync(OpenedSmallLaboratory laboratory, TestLot lot, KeyedMass keyed) =>
        laboratory.Small.Get<RunKeying>().KeyAsync(laboratory.Small.People.Technician.Actor, lot.RunId, First, keyed, Guid.CreateVersion7().ToString(), default);

    private static async Task<TestLot> StartedAsync(OpenedSmallLaboratory laboratory, bool allow = true)
    {
        var small = laboratory.Small;
        if (allow)
        {
            await small.AllowKeyingAsync();
        }

        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
        return lot;
    }
}

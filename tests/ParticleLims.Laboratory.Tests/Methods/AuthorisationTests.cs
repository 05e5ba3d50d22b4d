using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Laboratory.Tests.Methods;

/// <summary>Who may carry out runs by a method: given until a day, withdrawn, renewed, or allowed for one run by signature.</summary>
public sealed class AuthorisationTests
{
    private const string Evidence = "Three runs beside Ruth Vale, file T-17";

    [Theory]
    [EachDatabase]
    public async Task Nobody_starts_a_run_whose_method_asks_for_an_authorisation_that_they_have_not_and_the_words_say_who_can_give_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (method, lot) = await AskingAsync(small);
        var refused = await laboratory.ShouldRefuseAsync("not-authorised", () => small.Bench().StartAsync(lot.RunId, method));
        refused.Message.ShouldBe("Tom Reed is not authorised for M-GC-45: no authorisation was ever given. The laboratory manager (Lena Hollow) can authorise; a quality manager can allow this one run over a signature.");
        (await laboratory.Get<AuthorisationOverriding>().MissingAsync(small.People.Technician.Actor, lot.RunId, default)).ShouldBe(refused.Message);
        await GiveAsync(laboratory, small.People.Technician, method, Today(laboratory).AddDays(10));
        (await laboratory.Get<AuthorisationOverriding>().MissingAsync(small.People.Technician.Actor, lot.RunId, default)).ShouldBeNull();
        await small.Bench().CarryOutAsync(lot.RunId, method, Powder.Calcite);
        var kept = (await small.Bench().ViewAsync(lot.RunId)).Run.Operators.ShouldHaveSingleItem();
        (kept.PersonName, kept.BySignature).ShouldBe(("Tom Reed", false));
        kept.AuthorisationThen.ShouldBe(FormattableString.Invariant($"authorised for M-GC-45 by Lena Hollow until {Today(laboratory).AddDays(10):yyyy-MM-dd}: {Evidence}"));
    }

    [Theory]
    [EachDatabase]
    public async Task Whoever_takes_a_run_over_needs_an_authorisation_of_their_own(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (method, lot) = await AskingAsync(small);
        await GiveAsync(laboratory, small.People.Technician, method, Today(laboratory).AddDays(10));
        await small.Bench().StartAsync(lot.RunId, method);
        var second = small.Bench(small.People.SecondTechnician);
        await laboratory.ShouldRefuseAsync("not-authorised", () => second.FinishAsync(lot.RunId, Powder.Calcite));
        await GiveAsync(laboratory, small.People.SecondTechnician, method, Today(laboratory).AddDays(10));
        await second.FinishAsync(lot.RunId, Powder.Calcite);
        (await small.Bench().ViewAsync(lot.RunId)).Run.Operators.Select(one => one.PersonName).Order().ShouldBe(["Nia Marsh", "Tom Reed"]);
    }

    [Theory]
    [EachDatabase]
    public async Task It_ends_with_its_last_day_for_new_runs_but_whoever_works_on_one_finishes_it_unless_it_was_withdrawn(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, authorising) = (laboratory.Small, laboratory.Get<MethodAuthorising>());
        var (method, lot) = await AskingAsync(small);
        var next = await small.BookInAsync(method);
        var manager = small.People.LaboratoryManager.Actor;
        var id = await GiveAsync(laboratory, small.People.Technician, method, Today(laboratory));
        await small.Bench().StartAsync(lot.RunId, method);
        laboratory.Running.Clock.Advance(TimeSpan.FromHours(20));
        await laboratory.Get<BalanceTesting>().CheckAsync(small.People.SecondTechnician.Actor, small.BalanceId, small.Bench().Reading(100m), CheckCircumstances.Ready, null, default);
        (await laboratory.ShouldRefuseAsync("not-authorised", () => small.Bench().StartAsync(next.RunId, method))).Message.ShouldContain("it ended on");
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await authorising.WithdrawAsync(manager, id, "Mixed two samples up", 1, default);
        (await laboratory.ShouldRefuseAsync("not-authorised", () => small.Bench().FinishAsync(lot.RunId, Powder.Calcite))).Message.ShouldContain("by Lena Hollow: Mixed two samples up");
        await laboratory.ShouldRefuseAsync("authorisation-past", () => authorising.WithdrawAsync(manager, id, "Once more", 2, default));
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(1));
        await GiveAsync(laboratory, small.People.Technician, method, Today(laboratory).AddDays(1));
        await small.Bench().FinishAsync(lot.RunId, Powder.Calcite);
        (await authorising.OfMethodAsync(manager, method.MethodId, default)).Count.ShouldBe(2, "what was withdrawn stays readable");
    }

    [Theory]
    [EachDatabase]
    public async Task The_quality_managers_signature_allows_one_run_and_the_reviewer_reads_it_as_a_finding(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, overriding) = (laboratory.Small, laboratory.Get<AuthorisationOverriding>());
        var (manager, technician) = (small.People.QualityManager, small.People.Technician);
        var (method, lot) = await AskingAsync(small);
        var next = await small.BookInAsync(method);
        var id = await AllowAsync();
        await small.Bench().CarryOutAsync(lot.RunId, method, Powder.Calcite);
        var number = (await small.Bench().ViewAsync(lot.RunId)).Run.Number;
        (await small.Bench().ViewAsync(lot.RunId)).Findings.ShouldContain($"Tom Reed was allowed to carry out run {number} by permission of Quinn Ashby. Tom Reed is not authorised for M-GC-45: no authorisation was ever given. Reason: Everybody else is ill");
        await laboratory.ShouldRefuseAsync("not-authorised", () => small.Bench().StartAsync(next.RunId, method));
        await laboratory.ShouldRefuseAsync("run-state", () => AllowAsync());
        await using var data = laboratory.Data();
        var given = await data.Set<AuthorisationOverride>().SingleAsync(one => one.Id == id);
        (await data.Set<Signature>().SingleAsync(one => one.Id == given.SignatureId)).Content.ShouldBe(given.Words);
        (await overriding.OfMethodAsync(manager.Actor, method.MethodId, default)).ShouldHaveSingleItem().Id.ShouldBe(id);

        async Task<Guid> AllowAsync() => await overriding.AllowAsync(manager.Actor, lot.RunId, technician.Id, "Everybody else is ill", await small.ProofAsync(manager), default);
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_authorises_themselves_nor_somebody_who_carries_out_no_runs_nor_without_evidence_nor_for_ever(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, authorising) = (laboratory.Small, laboratory.Get<MethodAuthorising>());
        var (manager, day, method) = (small.People.LaboratoryManager, Today(laboratory).AddYears(1), small.Calcite.MethodId);
        await RefusedAsync("authorisation-person", small.People.QualityManager.Id, Evidence, day);
        await RefusedAsync("authorisation-evidence", small.People.Technician.Id, "  ", day);
        await RefusedAsync("authorisation-until", small.People.Technician.Id, Evidence, Today(laboratory).AddDays(-1));
        await RefusedAsync("authorisation-until", small.People.Technician.Id, Evidence, Today(laboratory).AddYears(6));
        await small.GiveRolesAsync(manager, Role.LaboratoryManager, Role.Technician);
        await RefusedAsync("own-work", manager.Id, Evidence, day);

        Task RefusedAsync(string code, Guid person, string evidence, DateOnly until) => laboratory.ShouldRefuseAsync(code, () => authorising.AuthoriseAsync(manager.Actor, person, method, evidence, until, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Today_announces_an_end_to_the_laboratory_manager_and_to_whom_it_concerns_until_it_is_renewed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (people, today) = (small.People, Today(laboratory));
        await GiveAsync(laboratory, people.Technician, small.Calcite, today.AddDays(AuthorisationWaiting.DaysAhead));
        await GiveAsync(laboratory, people.SecondTechnician, small.Calcite, today.AddDays(AuthorisationWaiting.DaysAhead + 1));
        (await SeenAsync(people.LaboratoryManager)).ShouldBe(["Tom Reed"]);
        (await SeenAsync(people.Technician)).ShouldBe(["Tom Reed"]);
        (await SeenAsync(people.SecondTechnician)).ShouldBeEmpty();
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(1));
        await GiveAsync(laboratory, people.Technician, small.Calcite, today.AddYears(1));
        (await SeenAsync(people.LaboratoryManager)).ShouldBeEmpty();

        async Task<IEnumerable<string>> SeenAsync(TestPerson person) => (await laboratory.Get<TodayReading>().BoardAsync(person.Actor, today, default)).Authorisations.Select(one => one.PersonName);
    }

    private static async Task<(TestMethod Method, TestLot Lot)> AskingAsync(SmallLaboratory small)
    {
        var method = await small.WithMethodAsync(small.Calcite, draft => draft with { AuthorisationNeeded = true });
        return (method, await small.BookInAsync(method));
    }

    private static Task<Guid> GiveAsync(OpenedSmallLaboratory laboratory, TestPerson person, TestMethod method, DateOnly until) =>
        laboratory.Get<MethodAuthorising>().AuthoriseAsync(laboratory.Small.People.LaboratoryManager.Actor, person.Id, method.MethodId, Evidence, until, default);

    private static DateOnly Today(OpenedSmallLaboratory laboratory) => DateOnly.FromDateTime(laboratory.Running.Clock.GetUtcNow().UtcDateTime);
}

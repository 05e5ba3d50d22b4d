using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Laboratory.Tests.Sieves;

/// <summary>The life of a sieve: inspected by the list, asked for by days, by runs and by its empty mass, and allowed by signature.</summary>
public sealed class SieveCareTests
{
    private static readonly SieveFound Good = new(SieveFaults.None, "Looked at against the lamp");

    [Theory]
    [EachDatabase]
    public async Task A_fault_takes_a_sieve_out_of_service_at_once_and_a_good_look_does_not_bring_it_back(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (care, technician, id) = (laboratory.Get<SieveCare>(), laboratory.Small.People.Technician.Actor, laboratory.Small.Calcite.SieveIds[0]);
        var photograph = new FileGiven("../../x.html", [0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3]);
        (await care.InspectAsync(technician, id, new SieveFound(SieveFaults.Tear | SieveFaults.Dent, "A hole at the rim", Photograph: photograph), 2, null, default)).ShouldBeFalse();
        var sieve = await SieveAsync(laboratory, id);
        (sieve.State, sieve.StateReason).ShouldBe((EquipmentState.OutOfService, "inspection found: tear, dent"));
        (await care.InspectAsync(technician, id, Good, sieve.Version, null, default)).ShouldBeTrue();
        (await SieveAsync(laboratory, id)).State.ShouldBe(EquipmentState.OutOfService);
        var kept = (await laboratory.Get<EquipmentDocuments>().OfAsync(technician, id, default)).ShouldHaveSingleItem();
        (kept.MediaType, kept.FileName).ShouldBe(("image/jpeg", $"document-{kept.Id:N}.jpg"));
        (await laboratory.Get<EquipmentDocuments>().OpenAsync(technician, kept.Id, default))!.Bytes.ShouldBe(photograph.Bytes);
        (await care.HistoryAsync(technician, id, default)).Inspections.Select(one => one.Passed).ShouldBe([true, false]);
    }

    [Theory]
    [EachDatabase]
    public async Task A_new_sieve_comes_into_service_by_the_look_of_whoever_keeps_the_equipment_and_of_nobody_else(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (care, manager) = (laboratory.Get<SieveCare>(), laboratory.Small.People.LaboratoryManager.Actor);
        var id = await laboratory.Get<SieveRegister>().RegisterAsync(manager, new SieveCard("TS-NEW", Aperture.FromMicrometres(63m), 200, "ISO 3310-1:2016", "Rack A"), null, default);
        await care.InspectAsync(laboratory.Small.People.Technician.Actor, id, Good, 1, null, default);
        (await SieveAsync(laboratory, id)).State.ShouldBe(EquipmentState.AwaitingCommissioning);
        await care.InspectAsync(manager, id, Good, 2, null, default);
        var sieve = await SieveAsync(laboratory, id);
        (sieve.State, sieve.InspectedAt).ShouldBe((EquipmentState.InService, laboratory.Running.Clock.GetUtcNow()));
        sieve.InspectionDueOn.ShouldBe(DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime).AddDays(SieveCarePlan.UsualDays));
    }

    [Theory]
    [EachDatabase]
    public async Task Files_are_known_by_their_content_and_limited(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, id) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Small.Calcite.SieveIds[0]);
        foreach (var bytes in (byte[][])[[.. "<html><script>alert(1)</script>"u8], [.. "MZ executable"u8], [.. "PK zip"u8], [.. "<svg onload=x>"u8], [.. " %PDF-1.7"u8]])
        {
            await laboratory.ShouldRefuseAsync("file-kind", () => AddAsync(new FileGiven("certificate.pdf", bytes)));
        }

        await laboratory.ShouldRefuseAsync("file-size", () => AddAsync(new FileGiven("empty.pdf", [])));
        var large = new byte[FileKind.Largest + 1];
        "%PDF-"u8.CopyTo(large);
        await laboratory.ShouldRefuseAsync("file-size", () => AddAsync(new FileGiven("large.pdf", large)));
        await AddAsync(new FileGiven("certificate.html", [.. "%PDF-1.7"u8]));
        (await laboratory.Get<EquipmentDocuments>().OfAsync(manager, id, default)).ShouldHaveSingleItem().MediaType.ShouldBe("application/pdf");
        var document = new FileGiven("mesh.png", [.. "%PDF-1.7"u8]);
        await laboratory.ShouldRefuseAsync("file-kind", () => laboratory.Get<SieveCare>().InspectAsync(manager, id, Good with { Photograph = document }, 2, null, default));
        await laboratory.ShouldRefuseAsync("file-kind", () => laboratory.Get<EquipmentDocuments>().AddAsync<TestSieve>(manager, id, EquipmentDocumentKind.Photograph, "The mesh", document, null, default));

        Task<Guid> AddAsync(FileGiven file) => laboratory.Get<EquipmentDocuments>().AddAsync<TestSieve>(manager, id, EquipmentDocumentKind.InspectionCertificate, "TS-020-C", file, null, default);
    }

    [Theory]
    [EachDatabase]
    public async Task After_so_many_runs_a_sieve_is_refused_until_it_was_inspected(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var id = small.Calcite.SieveIds[0];
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().PlanAsync(small.People.LaboratoryManager.Actor, id, new SieveCarePlan(365, 2, SieveCarePlan.UsualTareScatter), "Twice only", 2, default);
        for (var run = 0; run < 2; run++)
        {
            var lot = await small.BookInAsync(small.Calcite);
            await small.Bench().CarryOutAsync(lot.RunId, small.Calcite, Powder.Calcite);
        }

        var third = await small.BookInAsync(small.Calcite);
        (await laboratory.ShouldRefuseAsync("sieve-unfit", () => small.Bench().StartAsync(third.RunId, small.Calcite))).Message
            .ShouldContain("was used in 2 runs since its last inspection; it is inspected after 2.");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().InspectAsync(small.People.Technician.Actor, id, Good, (await SieveAsync(laboratory, id)).Version, null, default);
        await small.Bench().StartAsync(third.RunId, small.Calcite);
        (await small.Bench().ViewAsync(third.RunId)).Run.Sieves.Single(sieve => sieve.SieveId == id).FitnessThen.ShouldContain("0 of 2 runs since its last inspection");
    }

    [Theory]
    [EachDatabase]
    public async Task A_sieve_of_which_few_runs_are_left_is_announced_with_what_falls_due(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor);
        var today = DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime);
        var (near, far) = (small.Calcite.SieveIds[0], small.Calcite.SieveIds[1]);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().PlanAsync(manager, near, new SieveCarePlan(365, 6, SieveCarePlan.UsualTareScatter), "A soft cloth", 2, default);
        await laboratory.Get<SieveCare>().PlanAsync(manager, far, new SieveCarePlan(365, 7, SieveCarePlan.UsualTareScatter), "A harder one", 2, default);
        (await laboratory.Get<SieveFitnessReading>().NearAsync(manager, default)).ShouldBeEmpty();
        await small.Bench().CarryOutAsync((await small.BookInAsync(small.Calcite)).RunId, small.Calcite, Powder.Calcite);
        (await laboratory.Get<SieveFitnessReading>().NearAsync(manager, default)).ShouldBe(new Dictionary<Guid, int> { [near] = 1 });
        var waiting = (await laboratory.Get<TodayReading>().BoardAsync(manager, today, default)).Equipment.Single(one => one.Id == near);
        (waiting.Why, waiting.Overdue).ShouldBe(("1 of 6 runs since its last inspection; due after 5 more", false));
        for (var run = 0; run < 5; run++)
        {
            await small.Bench().CarryOutAsync((await small.BookInAsync(small.Calcite)).RunId, small.Calcite, Powder.Calcite);
        }

        (await laboratory.Get<TodayReading>().BoardAsync(manager, today, default)).Equipment.Single(one => one.Id == near).Overdue.ShouldBeTrue();
        (await laboratory.Get<SieveFitnessReading>().NearAsync(manager, default))[far].ShouldBe(6);
    }

    [Theory]
    [EachDatabase]
    public async Task A_step_of_twenty_milligrams_asks_for_an_inspection_before_the_next_run_and_a_weighing_taken_again_withdraws_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (bench, id) = (small.Bench(), small.Calcite.SieveIds[0]);
        for (var run = 0; run < 3; run++)
        {
            await bench.CarryOutAsync((await small.BookInAsync(small.Calcite)).RunId, small.Calcite, Powder.Calcite);
        }

        var lot = await small.BookInAsync(small.Calcite);
        await bench.StartAsync(lot.RunId, small.Calcite);
        var step = (await bench.ViewAsync(lot.RunId)).Next!;
        await bench.WeighAsync(lot.RunId, step, TestBench.TareGrams(1) + 0.020m);
        (await SieveAsync(laboratory, id)).TareSignal.ShouldBe("The sieve gained 20.0 mg at once: it looks as if something stayed on it.");
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(20));
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, TestBench.TareGrams(1), "It was not brushed");
        (await SieveAsync(laboratory, id)).TareSignal.ShouldBeNull();
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(20));
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, TestBench.TareGrams(1) + 0.020m, "It weighs that after all");
        await small.Desk.AbandonAsync(lot.RunId);
        var next = await small.BookInAsync(small.Calcite);
        (await laboratory.ShouldRefuseAsync("sieve-unfit", () => bench.StartAsync(next.RunId, small.Calcite))).Message.ShouldContain("asks for an inspection: The sieve gained 20.0 mg at once");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().InspectAsync(small.People.Technician.Actor, id, Good with { BeginTareAnew = true }, (await SieveAsync(laboratory, id)).Version, null, default);
        await bench.StartAsync(next.RunId, small.Calcite);
    }

    [Fact]
    public void The_usual_empty_mass_does_not_follow_a_sieve_that_creeps()
    {
        List<Mass> creeping = [.. Enumerable.Range(0, 200).Select(run => Mass.FromMicrograms(280_000_000 + (run * 5_000)))];
        TareHistory.Usual(creeping).ShouldBe(Mass.FromMicrograms(280_025_000));
        TareHistory.Usual(creeping[..2]).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task The_quality_managers_signature_lets_one_run_use_an_overdue_sieve_and_is_printed_but_not_one_out_of_service(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (overriding, manager, id) = (laboratory.Get<FitnessOverriding>(), small.People.QualityManager, small.Calcite.SieveIds[0]);
        var (first, second) = (await small.BookInAsync(small.Calcite), await small.BookInAsync(small.Calcite));
        await laboratory.ShouldRefuseAsync("equipment-fit", () => AllowAsync(first.RunId));
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().PlanAsync(small.People.LaboratoryManager.Actor, id, new SieveCarePlan(365, 1, SieveCarePlan.UsualTareScatter), "Once only", 2, default);
        await small.Bench().CarryOutAsync(first.RunId, small.Calcite, Powder.Calcite);
        await laboratory.ShouldRefuseAsync("sieve-unfit", () => small.Bench().StartAsync(second.RunId, small.Calcite));
        await AllowAsync(second.RunId);
        await small.Bench().CarryOutAsync(second.RunId, small.Calcite, Powder.Calcite);
        (await small.Bench().ViewAsync(second.RunId)).Run.Sieves[0].FitnessThen.ShouldContain("allowed by signature");
        var third = await small.BookInAsync(small.Calcite);
        await laboratory.ShouldRefuseAsync("sieve-unfit", () => small.Bench().StartAsync(third.RunId, small.Calcite));
        await laboratory.Get<EquipmentLife<TestSieve>>().StopAsync(small.People.Technician.Actor, id, "A dent in the cloth", (await SieveAsync(laboratory, id)).Version, default);
        await laboratory.ShouldRefuseAsync("equipment-state", () => AllowAsync(third.RunId));
        await using var data = laboratory.Data();
        var given = await data.Set<FitnessOverride>().SingleAsync();
        given.Reason.ShouldBe("Nothing else to sieve with");
        (await data.Set<Signature>().SingleAsync(signature => signature.Id == given.SignatureId)).Content.ShouldContain(given.Unfit);

        async Task<Guid> AllowAsync(Guid runId) => await overriding.AllowAsync(manager.Actor, runId, id, "Nothing else to sieve with", await small.ProofAsync(manager), default);
    }

    [Theory]
    [EachDatabase]
    public async Task Intervals_that_mean_nothing_and_words_that_say_nothing_are_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (care, manager, id) = (laboratory.Get<SieveCare>(), laboratory.Small.People.LaboratoryManager.Actor, laboratory.Small.Calcite.SieveIds[0]);
        foreach (var plan in (SieveCarePlan[])[new(0, null, SieveCarePlan.UsualTareScatter), new(365, 0, SieveCarePlan.UsualTareScatter), new(2_000, null, SieveCarePlan.UsualTareScatter)])
        {
            await laboratory.ShouldRefuseAsync("interval", () => care.PlanAsync(manager, id, plan, "Try it", 2, default));
        }

        await laboratory.ShouldRefuseAsync("tare-scatter", () => care.PlanAsync(manager, id, new SieveCarePlan(365, null, Mass.Zero), "Try it", 2, default));
        await laboratory.ShouldRefuseAsync("inspection-words", () => care.InspectAsync(manager, id, Good with { Words = " ok " }, 2, null, default));
        await laboratory.ShouldRefuseAsync("inspection", () => care.InspectAsync(manager, id, Good with { Faults = (SieveFaults)1024 }, 2, null, default));
    }

    private static async Task<TestSieve> SieveAsync(OpenedSmallLaboratory laboratory, Guid id) =>
        (await laboratory.Get<SieveRegister>().FindAsync(laboratory.Small.People.LaboratoryManager.Actor, id, default))!;
}

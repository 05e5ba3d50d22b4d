using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Cautions;

/// <summary>Cautions are acknowledged once for each person and version of the texts; those to stop at every time.</summary>
public sealed class CautionReadingTests
{
    [Theory]
    [EachDatabase]
    public async Task A_run_begins_only_after_its_cautions_were_acknowledged_once_by_each_person(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, reading) = (laboratory.Small, laboratory.Get<CautionReading>());
        var (first, second) = (small.People.Technician, small.People.SecondTechnician);
        (await Should.ThrowAsync<RefusedException>(() => StartAsync(small, first))).Code.ShouldBe("cautions-open");
        var open = await reading.OpenAsync(first.Actor, Hazards.CombustibleDust, SievingProcedure.NestedStack, default);
        open[0].Code.ShouldBe("C-01");
        open.ShouldContain(caution => caution.Code == "C-10");
        open.ShouldAllBe(caution => !caution.Stop);

        (await reading.AcknowledgeAsync(first.Actor, Hazards.CombustibleDust, SievingProcedure.NestedStack, default)).ShouldBe(open.Count);
        await StartAsync(small, first);
        (await reading.OpenAsync(first.Actor, Hazards.CombustibleDust, SievingProcedure.NestedStack, default)).ShouldBeEmpty();
        (await reading.OpenAsync(first.Actor, Hazards.CombustibleDust | Hazards.Sensitiser, SievingProcedure.NestedStack, default)).Select(caution => caution.Code).ShouldBe(["C-15"]);
        (await reading.OpenAsync(second.Actor, Hazards.CombustibleDust, SievingProcedure.NestedStack, default)).Count.ShouldBe(open.Count);
        (await Should.ThrowAsync<RefusedException>(() => StartAsync(small, second))).Code.ShouldBe("cautions-open");
        await using var data = laboratory.Data();
        (await data.Set<CautionAcknowledgement>().ToListAsync()).ShouldAllBe(one => one.PersonId == first.Id && one.TextsVersion == CautionTexts.Version);
        (await data.Events.SingleAsync(one => one.Code == "cautions.acknowledge")).Changes.ShouldContain("C-10");
    }

    private static async Task StartAsync(SmallLaboratory small, TestPerson person)
    {
        var run = (await small.BookInSampleAsync(await small.BookInLotAsync(small.Spice), small.Spice)).RunIds[0];
        await small.Get<RunStart>().StartAsync(person.Actor, run, new RunEquipment(small.BalanceId, small.Spice.SieveIds), 1, null, "Cautions confirmed: C-04, C-21", default);
    }
}

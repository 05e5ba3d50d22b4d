using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Runs;

public sealed class RunChoosingTests
{
    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task The_least_used_fit_sieve_is_suggested_and_the_others_say_why_not(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var first = (await small.BookInSampleAsync(await small.BookInLotAsync(small.Calcite), small.Calcite)).RunIds[0];
        var second = (await small.BookInSampleAsync(await small.BookInLotAsync(small.Calcite), small.Calcite)).RunIds[0];
        await small.Bench().StartAsync(first, small.Calcite);
        var spare = await AddAsync(laboratory, "SPARE-20", 20m, stopped: false);
        await AddAsync(laboratory, "DENTED-20", 20m, stopped: true);

        var choices = (await laboratory.Get<RunChoosing>().ForAsync(small.People.Technician.Actor, second, CancellationToken.None))!;

        choices.Places.Select(place => place.Aperture.Micrometres).ShouldBe([20m, 32m, 45m, 63m]);
        var place = choices.Places[0];
        place.Suggested!.Sieve.Id.ShouldBe(spare);
        place.Choices.Single(choice => choice.Sieve.Serial == "DENTED-20").Unfit!.ShouldContain("dented");
        place.Choices.Single(choice => choice.Sieve.Id == small.Calcite.SieveIds[0]).Unfit!.ShouldContain("in use in run");
        choices.Places[1].Suggested?.Sieve.Id.ShouldNotBe(small.Calcite.SieveIds[1]);
    }

    [Fact]
    public async Task A_balance_that_only_wants_its_check_says_so()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var actor = laboratory.Small.People.Technician.Actor;
        (await laboratory.Get<RunChoosing>().BalancesAsync(actor, CancellationToken.None)).ShouldHaveSingleItem().Unfit.ShouldBeNull();

        laboratory.Running.Clock.Advance(TimeSpan.FromDays(1));
        var unchecked_ = (await laboratory.Get<RunChoosing>().BalancesAsync(actor, CancellationToken.None)).ShouldHaveSingleItem();
        unchecked_.OnlyCheckMissing.ShouldBeTrue();
        unchecked_.Unfit!.ShouldContain("not been checked today");

        await laboratory.Get<BalanceTesting>().CheckAsync(actor, laboratory.Small.BalanceId, laboratory.Small.Bench().Reading(100.500m), CheckCircumstances.Ready, null, CancellationToken.None);
        var failed = (await laboratory.Get<RunChoosing>().BalancesAsync(actor, CancellationToken.None)).ShouldHaveSingleItem();
        failed.OnlyCheckMissing.ShouldBeFalse();
        failed.Unfit!.ShouldContain("out of service");
    }

    [Fact]
    public async Task The_sieves_of_a_stack_have_frames_of_one_diameter()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var small = laboratory.Small;
        var run = (await small.BookInSampleAsync(await small.BookInLotAsync(small.Spice), small.Spice)).RunIds[0];
        var wider = await AddAsync(laboratory, "TS-8-INCH", 250m, stopped: false, frameMillimetres: 203);
        await small.ReadCautionsAsync(small.People.Technician);
        List<Guid> sieves = [.. small.Spice.SieveIds];
        sieves[1] = wider;
        var refusal = await laboratory.ShouldRefuseAsync("stack-frames", () => StartAsync([.. sieves]));
        refusal.Message.ShouldBe("The sieves of a stack have frames of one diameter: TS-SB-500-125 has 200 mm, TS-8-INCH has 203 mm. Take sieves that close on each other, or powder is lost between them.");
        await StartAsync(small.Spice.SieveIds);

        Task<bool> StartAsync(IReadOnlyList<Guid> chosen) =>
            laboratory.Get<RunStart>().StartAsync(small.People.Technician.Actor, run, new RunEquipment(small.BalanceId, chosen), 1, null, "Cautions confirmed: C-04, C-21", CancellationToken.None);
    }

    [Fact]
    public async Task The_confirmed_cautions_stand_in_the_record()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var small = laboratory.Small;
        var run = (await small.BookInSampleAsync(await small.BookInLotAsync(small.Spice), small.Spice)).RunIds[0];
        var actor = small.People.Technician.Actor;
        await small.ReadCautionsAsync(small.People.Technician);
        await laboratory.Get<RunStart>().StartAsync(actor, run, new RunEquipment(small.BalanceId, small.Spice.SieveIds), 1, "start-1", "Cautions confirmed: C-04, C-21", CancellationToken.None);

        await using var data = laboratory.Data();
        data.Set<ParticleLims.Laboratory.Record.RecordEvent>().Single(one => one.Code == "runs.start").Reason.ShouldBe("Cautions confirmed: C-04, C-21");
    }

    private static async Task<Guid> AddAsync(OpenedSmallLaboratory laboratory, string serial, decimal micrometres, bool stopped, int frameMillimetres = 200)
    {
        var manager = laboratory.Small.People.LaboratoryManager.Actor;
        var life = laboratory.Get<EquipmentLife<TestSieve>>();
        var id = await laboratory.Get<SieveRegister>().RegisterAsync(manager, new SieveCard(serial, Aperture.FromMicrometres(micrometres), frameMillimetres, "ISO 3310-1:2016", "Rack B"), null, CancellationToken.None);
        await life.CommissionAsync(manager, id, "Inspection K-9", new DateOnly(2027, 3, 1), 1, CancellationToken.None);
        if (stopped)
        {
            await life.StopAsync(laboratory.Small.People.Technician.Actor, id, "dented frame", 2, CancellationToken.None);
        }

        return id;
    }
}

using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Equipment;

public sealed class RegisterRefusalTests
{
    private static readonly BalanceCard Good = new(
        "B-0500", "Bench 2", "Bench 2", Mass.FromGrams(0.001m), Mass.FromGrams(620m), Mass.FromGrams(0.001m), BalanceWay.OnNetwork("127.0.0.1", 4002), "Plain line", Mass.FromGrams(100m), Mass.FromGrams(0.002m));

    [Theory]
    [EachDatabase]
    public async Task A_balance_that_could_not_weigh_or_be_checked_is_not_registered(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        foreach (var (card, code) in Impossible())
        {
            await laboratory.ShouldRefuseAsync(code, () => RegisterAsync(laboratory.Small, card));
        }

        await RegisterAsync(laboratory.Small, Good);
        await laboratory.ShouldRefuseAsync("balance-serial-used", () => RegisterAsync(laboratory.Small, Good with { Name = "Bench 3" }));
    }

    [Theory]
    [EachDatabase]
    public async Task A_sieve_has_a_serial_number_of_its_own_and_a_frame_that_there_is(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var good = new SieveCard("TS-NEW", Aperture.FromMicrometres(63m), 200, "ISO 3310-1:2016", "Rack A");
        foreach (var card in (SieveCard[])[good with { Serial = " " }, good with { Serial = new string('7', 61) }, good with { FrameMillimetres = 0 }, good with { FrameMillimetres = 1001 }])
        {
            await laboratory.ShouldRefuseAsync("sieve-incomplete", () => RegisterAsync(card));
        }

        await laboratory.ShouldRefuseAsync("sieve-serial-used", () => RegisterAsync(good with { Serial = " TS-GC-45-045 " }));
        await RegisterAsync(good);

        Task<Guid> RegisterAsync(SieveCard card) => laboratory.Get<SieveRegister>().RegisterAsync(laboratory.Small.People.LaboratoryManager.Actor, card, null, default);
    }

    [Theory]
    [EachDatabase]
    public async Task What_was_scrapped_or_never_commissioned_is_not_put_back_by_the_wrong_way(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, life, sieve) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<EquipmentLife<TestSieve>>(), laboratory.Small.Calcite.SieveIds[0]);
        var due = new DateOnly(2027, 3, 1);
        await laboratory.ShouldRefuseAsync("equipment-state", () => life.ScrapAsync(manager, sieve, "Worn out", 2, default));
        await laboratory.ShouldRefuseAsync("equipment-state", () => life.CommissionAsync(manager, sieve, "Certificate", due, 2, default));
        await laboratory.ShouldRefuseAsync("evidence-missing", () => life.InspectAsync(manager, sieve, "ok", due, 2, default));
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => life.StopAsync(manager, sieve, "A dent in the cloth", 1, default));
        await life.StopAsync(manager, sieve, "A dent in the cloth", 2, default);
        await life.ScrapAsync(manager, sieve, "The cloth is torn", 3, default);
        await laboratory.ShouldRefuseAsync("equipment-state", () => life.ReturnAsync(manager, sieve, "Looks whole again", due, 4, default));
    }

    [Theory]
    [EachDatabase]
    public async Task The_next_inspection_lies_neither_in_the_past_nor_beyond_three_years(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, life, sieve) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<EquipmentLife<TestSieve>>(), laboratory.Small.Calcite.SieveIds[0]);
        var today = DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime);
        foreach (var wrong in (DateOnly[])[today.AddDays(-1), today.AddDays(NextDue.MostDays + 1), DateOnly.MaxValue])
        {
            await laboratory.ShouldRefuseAsync("due-day", () => life.InspectAsync(manager, sieve, "Looked at against the lamp", wrong, 2, default));
        }

        await life.StopAsync(manager, sieve, "Dropped on the floor", 2, default);
        (await laboratory.ShouldRefuseAsync("due-day", () => life.ReturnAsync(manager, sieve, "No dent found", new DateOnly(2206, 3, 2), 3, default))).Message.ShouldContain("2206-03-02 does not");
        await life.ReturnAsync(manager, sieve, "No dent found", today.AddDays(NextDue.MostDays), 3, default);
        await life.InspectAsync(manager, sieve, "Looked at against the lamp", today, 4, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_check_weight_comes_into_service_and_stays_there_by_its_certificate_and_by_no_look(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, life, register) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<EquipmentLife<CheckWeight>>(), laboratory.Get<CheckWeightRegister>());
        var id = await register.RegisterAsync(manager, new CheckWeightCard("W-100", Mass.FromGrams(100m), WeightClass.F1, "Bench 1"), null, default);
        var (ends, certificate) = (new DateOnly(2027, 1, 5), new WeightCertificate("K-77", new DateOnly(2026, 1, 5), Mass.FromGrams(100m), Mass.FromMicrograms(100), "S-12", new DateOnly(2027, 1, 5)));
        await laboratory.ShouldRefuseAsync("by-certificate", () => life.CommissionAsync(manager, id, "It looks new", ends, 1, default));
        await life.StopAsync(manager, id, "It fell", 1, default);
        (await laboratory.ShouldRefuseAsync("by-certificate", () => life.ReturnAsync(manager, id, "No scratch", ends, 2, default))).Message.ShouldContain("has no certificate yet");
        await laboratory.ShouldRefuseAsync("weight-certificate", () => register.CalibrateAsync(manager, id, certificate with { DueOn = new DateOnly(2206, 1, 5) }, 2, default));
        await register.CalibrateAsync(manager, id, certificate, 2, default);
        (await laboratory.ShouldRefuseAsync("by-certificate", () => life.ReturnAsync(manager, id, "No scratch", ends.AddDays(1), 3, default))).Message.ShouldContain("counts until 2027-01-05");
        await life.ReturnAsync(manager, id, "No scratch", ends, 3, default);
        await laboratory.ShouldRefuseAsync("by-certificate", () => life.InspectAsync(manager, id, "No scratch", ends.AddDays(1), 4, default));
        (await register.AllAsync(manager, default)).ShouldHaveSingleItem().InspectionDueOn.ShouldBe(ends);
    }

    private static IEnumerable<(BalanceCard Card, string Code)> Impossible() =>
    [
        (Good with { Serial = " " }, "balance-incomplete"),
        (Good with { Name = "" }, "balance-incomplete"),
        (Good with { Readability = Mass.Zero }, "balance-incomplete"),
        (Good with { Readability = Mass.FromGrams(-0.001m) }, "balance-incomplete"),
        (Good with { Capacity = Mass.FromGrams(0.001m) }, "balance-incomplete"),
        (Good with { Repeatability = Mass.FromGrams(-0.001m) }, "balance-check"),
        (Good with { CheckWeight = Mass.Zero }, "balance-check"),
        (Good with { CheckWeight = Mass.FromGrams(620.001m) }, "balance-check"),
        (Good with { CheckTolerance = Mass.Zero }, "balance-check"),
        (Good with { Way = BalanceWay.OnNetwork(" ", 4001) }, "port"),
        (Good with { Way = BalanceWay.OnNetwork("127.0.0.1", 0) }, "port"),
        (Good with { Way = BalanceWay.OnNetwork("127.0.0.1", 65_536) }, "port"),
        (Good with { Way = new BalanceWay(WayIn.ServerPort, Device: "/etc/passwd") }, "device"),
        (Good with { Way = new BalanceWay(WayIn.ServerPort, Device: "/dev/../etc/passwd") }, "device"),
        (Good with { Way = new BalanceWay(WayIn.ServerPort, Device: "/dev/ttyUSB0", BaudRate: 10) }, "baud-rate"),
        (Good with { Way = new BalanceWay(WayIn.TerminalPort, DataBits: 9) }, "line-settings"),
        (Good with { Way = new BalanceWay(WayIn.KeyedByHand) }, "way-in"),
        (Good with { ReadingFormat = "Some other line" }, "format-unknown"),
    ];

    private static Task<Guid> RegisterAsync(SmallLaboratory small, BalanceCard card) => small.Get<BalanceRegister>().RegisterAsync(small.People.LaboratoryManager.Actor, card, null, default);
}

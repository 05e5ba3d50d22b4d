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

using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>A balance as the model knows it.</summary>
internal sealed record BalanceInPlay(Guid Id, DemonstrationBalance Line)
{
    /// <summary>The decimals of a gram that it shows.</summary>
    public const int Decimals = 3;

    /// <summary>The last day on which its check was passed.</summary>
    public DateOnly CheckedOn { get; set; }

    /// <summary>Whether it may be used.</summary>
    public bool InService { get; set; } = true;
}

/// <summary>The sieves and balances of the demonstration and what happens to them.</summary>
internal sealed class EquipmentRoom(
    SieveRegister sieveRegister, SieveCare sieveCare, EquipmentLife<TestSieve> sieveLife, BalanceRegister balanceRegister, BalanceTesting balanceTesting, CheckWeightRegister weightRegister, EquipmentLife<Balance> balanceLife, UnitBench units,
    ReferenceBench references, DocumentBench documents,
    DemonstrationOptions options, Crew crew, History history, HistoryClock clock)
{
    /// <summary>When the clogged sieve is found, as a part of the history.</summary>
    public const double BlindingFoundAt = 0.55;

    private const double BalanceFailsAt = 0.9;
    private const double WeightGrams = 200.00012;
    private static readonly int[] Apertures = [20, 32, 45, 63, 90, 125, 180, 250, 355, 500];
    private static readonly Dictionary<string, SieveFate> Fates = new(StringComparer.Ordinal)
    {
        ["TS-020-2"] = SieveFate.DueSoon, ["TS-045-1"] = SieveFate.Blinds, ["TS-063-1"] = SieveFate.Dented, ["TS-090-1"] = SieveFate.Worn, ["TS-125-2"] = SieveFate.Overdue, ["TS-250-2"] = SieveFate.DueSoon, ["TS-355-2"] = SieveFate.DueSoon,
        ["TS-500-2"] = SieveFate.New,
    };

    private readonly List<SieveInPlay> sieves = Sieves(new Chance(options.Seed).For(-1));
    private readonly Chance chance = new Chance(options.Seed).For(-2);
    private Guid weight;

    /// <summary>The balance at the bench.</summary>
    public BalanceInPlay Bench { get; private set; } = null!;

    /// <summary>The other balance; starch is weighed on it while it works.</summary>
    public BalanceInPlay Other { get; private set; } = null!;

    /// <summary>The sieving units.</summary>
    public UnitBench Units => units;

    /// <summary>Registers and commissions what is there at the beginning, and plans what happens later.</summary>
    public async Task FurnishAsync(Timeline timeline, CancellationToken cancellation)
    {
        weight = await AddWeightAsync(cancellation);
        Bench = await AddAsync("Bench balance", "Laboratory, bench 1", options.BenchBalance, cancellation);
        Other = await AddAsync("Second balance", "Laboratory, bench 2", options.OtherBalance, cancellation);
        await units.FurnishAsync(timeline, cancellation);
        foreach (var sieve in sieves.Where(sieve => sieve.Fate != SieveFate.New))
        {
            sieve.DueOn = FirstDue(sieve);
            await RegisterAsync(sieve, cancellation);
            await sieveLife.CommissionAsync(crew.LaboratoryManager.Actor, sieve.Id, $"Certificate of conformity {sieve.Serial}-C seen; mesh looked at over the light table, no fault", sieve.DueOn, 1, cancellation);
            sieve.InService = true;
            clock.Pass(60);
            Plan(timeline, sieve, cancellation);
        }

        foreach (var sieve in sieves.Where(sieve => sieve.Fate == SieveFate.New))
        {
            timeline.Add(history.AtPart(0.97), () => RegisterAsync(sieve, cancellation));
        }

        await references.PlanAsync(timeline, sieves.Single(sieve => sieve.Fate == SieveFate.Worn), Bench, () => CheckAsync(Bench, crew.Technicians[0], cancellation), cancellation);
        timeline.Add(history.AtPart(0.1), () => RepeatAsync(Bench, cancellation));
        timeline.Add(history.AtPart(BalanceFailsAt), () => FailAsync(Other, cancellation));
    }

    /// <summary>A fit sieve of each aperture, the finest first. One that clogs is taken as long as it may be, the others in turn.</summary>
    public IReadOnlyList<SieveInPlay> Take(IEnumerable<Aperture> apertures, int turn)
    {
        var today = WorkingTime.DayOf(clock.Now);
        return [.. apertures.Order().Select(aperture =>
        {
            var fit = sieves.FindAll(sieve => sieve.Aperture == aperture.Micrometres && sieve.InService && sieve.DueOn >= today);
            return fit.Find(sieve => sieve.Fate == SieveFate.Blinds) ?? fit[turn % fit.Count];
        })];
    }

    /// <summary>Checks a balance unless that was done today.</summary>
    public async Task CheckAsync(BalanceInPlay balance, Member by, CancellationToken cancellation)
    {
        var today = WorkingTime.DayOf(clock.Now);
        if (balance.CheckedOn != today)
        {
            await balanceTesting.CheckAsync(by.Actor, balance.Id, Read(balance, WeightGrams + (0.0004 * chance.Normal())), CheckCircumstances.Ready with { WeightId = weight }, null, cancellation);
            balance.CheckedOn = today;
            clock.Pass(chance.Between(60, 150));
        }
    }

    /// <summary>The stable reading of a balance with so many grams on the pan.</summary>
    public BalanceReading Read(BalanceInPlay balance, double grams)
    {
        var mass = Mass.FromMicrograms((long)Math.Round(grams * 1_000, MidpointRounding.ToEven) * 1_000);
        return new BalanceReading(balance.Id, mass, BalanceInPlay.Decimals, Stable: true, balance.Line.LineOf(mass, BalanceInPlay.Decimals), clock.Now);
    }

    private static List<SieveInPlay> Sieves(Chance chance) =>
    [
        .. from aperture in Apertures
           from number in Enumerable.Range(1, aperture is 45 or 63 ? 3 : 2)
           let sieve = new SieveInPlay(aperture, number, SieveFate.Usual, chance.For((aperture * 10) + number))
           select Fates.TryGetValue(sieve.Serial, out var fate) ? new SieveInPlay(aperture, number, fate, chance.For((aperture * 10) + number)) : sieve,
    ];

    private DateOnly FirstDue(SieveInPlay sieve)
    {
        var end = WorkingTime.DayOf(clock.End);
        return sieve.Fate switch
        {
            SieveFate.DueSoon => end.AddDays(4 + (sieve.Aperture / 20)),
            SieveFate.Overdue => end.AddDays(-3),
            _ => WorkingTime.DayOf(clock.Now).AddDays(chance.Whole(120, 330)),
        };
    }

    private async Task<BalanceInPlay> AddAsync(string name, string place, DemonstrationBalance line, CancellationToken cancellation)
    {
        var card = new BalanceCard(
            line.Serial, name, place, Mass.FromMicrograms(1_000), Mass.FromGrams(1_200m), Mass.FromMicrograms(600), BalanceWay.OnNetwork(line.Host, line.Port), line.ReadingFormat, Mass.FromGrams(200m), Mass.FromMicrograms(5_000))
        {
            Plate = DocumentBench.Balance, RepeatEveryDays = 400,
        };
        var id = await balanceRegister.RegisterAsync(crew.LaboratoryManager.Actor, card, null, cancellation);
        clock.Pass(300);
        await balanceLife.CommissionAsync(crew.LaboratoryManager.Actor, id, $"Calibration certificate {line.Serial}-K seen: repeatability 0.6 mg, eccentricity within 2 mg", WorkingTime.DayOf(clock.End).AddDays(40), 1, cancellation);
        clock.Pass(300);
        return new BalanceInPlay(id, line);
    }

    private async Task<Guid> AddWeightAsync(CancellationToken cancellation)
    {
        var (manager, today) = (crew.LaboratoryManager.Actor, WorkingTime.DayOf(clock.Now));
        var id = await weightRegister.RegisterAsync(manager, new CheckWeightCard("CW-200-1", Mass.FromGrams(200m), WeightClass.F1, "Laboratory, balance table"), null, cancellation);
        clock.Pass(120);
        var certificate = new WeightCertificate("K-2207-F1", today.AddDays(-30), Mass.FromMicrograms((long)(WeightGrams * 1_000_000)), Mass.FromMicrograms(300), "S-41", WorkingTime.DayOf(clock.End).AddDays(110));
        await weightRegister.CalibrateAsync(manager, id, certificate, 1, cancellation);
        clock.Pass(60);
        return id;
    }

    private async Task RepeatAsync(BalanceInPlay balance, CancellationToken cancellation)
    {
        var version = (await balanceRegister.AllAsync(crew.LaboratoryManager.Actor, cancellation)).Single(one => one.Id == balance.Id).Version;
        clock.Pass(900);
        await balanceTesting.TestRepeatabilityAsync(crew.LaboratoryManager.Actor, balance.Id, [.. Enumerable.Range(0, 10).Select(_ => Read(balance, WeightGrams + (0.0006 * chance.Normal())).Mass)], version, null, cancellation);
    }

    private async Task RegisterAsync(SieveInPlay sieve, CancellationToken cancellation)
    {
        var card = new SieveCard(sieve.Serial, Aperture.FromMicrometres(sieve.Aperture), 200, "ISO 3310-1:2016", $"Sieve cabinet, shelf {(Array.IndexOf(Apertures, sieve.Aperture) / 4) + 1}") { Plate = DocumentBench.Sieve };
        sieve.Id = await sieveRegister.RegisterAsync(crew.LaboratoryManager.Actor, card, null, cancellation);
        if (sieve.Number == 1)
        {
            await documents.EnterAsync(sieve, 40, cancellation);
            clock.Pass(20);
            return;
        }

        clock.Pass(60);
    }

    private void Plan(Timeline timeline, SieveInPlay sieve, CancellationToken cancellation)
    {
        switch (sieve.Fate)
        {
            case SieveFate.Blinds:
                timeline.Add(history.AtPart(BlindingFoundAt), () => FindBlindedAsync(sieve, crew.Technicians[0], cancellation));
                break;
            case SieveFate.Dented:
                timeline.Add(history.AtPart(0.3), () => StopAsync(sieve, "Dropped while cleaning: the mesh has a dent", cancellation));
                timeline.Add(history.AtPart(0.32), () => ScrapAsync(sieve, cancellation));
                break;
            case SieveFate.Usual or SieveFate.Worn when sieve.DueOn.AddDays(-8) < WorkingTime.DayOf(clock.End):
                timeline.Add(WorkingTime.After(WorkingTime.At(sieve.DueOn.AddDays(-chance.Whole(4, 14)), 9), chance.Between(0, 6)), () => InspectAsync(sieve, cancellation));
                break;
        }
    }

    /// <summary>What asks for an inspection by its empty mass is looked at before the run: the clogged sieve stays out, any other is good.</summary>
    public async Task LookAsync(IReadOnlyList<SieveInPlay> taken, Member by, CancellationToken cancellation)
    {
        foreach (var asking in (await sieveRegister.AllAsync(by.Actor, cancellation)).Where(one => one.TareSignal is not null && taken.Any(sieve => sieve.Id == one.Id)))
        {
            var sieve = taken.Single(one => one.Id == asking.Id);
            if (sieve.Fate == SieveFate.Blinds)
            {
                await FindBlindedAsync(sieve, by, cancellation);
                continue;
            }

            await sieveCare.InspectAsync(by.Actor, sieve.Id, new SieveFound(SieveFaults.None, "Brushed from below, looked at against the lamp: nothing found"), asking.Version, null, cancellation);
            sieve.DueOn = WorkingTime.DayOf(clock.Now).AddDays(asking.InspectEveryDays);
            clock.Pass(chance.Between(120, 300));
        }
    }

    private async Task FindBlindedAsync(SieveInPlay sieve, Member by, CancellationToken cancellation)
    {
        if (!sieve.InService)
        {
            return;
        }

        var version = await VersionOfAsync(sieve, cancellation);
        await sieveCare.CleanAsync(by.Actor, sieve.Id, CleaningWay.UltrasonicBath, "Five minutes, dried at 60 °C; the empty mass stays as high as before", version, cancellation);
        clock.Pass(chance.Between(1_200, 2_400));
        await sieveCare.InspectAsync(by.Actor, sieve.Id, new SieveFound(SieveFaults.BlockedApertures, "Dark patches over a third of the cloth, grains sit in the apertures after brushing and bath"), version, null, cancellation);
        sieve.InService = false;
    }

    private async Task InspectAsync(SieveInPlay sieve, CancellationToken cancellation)
    {
        if (!sieve.InService)
        {
            return;
        }

        var due = WorkingTime.DayOf(clock.Now).AddYears(1);
        await sieveLife.InspectAsync(crew.LaboratoryManager.Actor, sieve.Id, $"Report {sieve.Serial}-I: ten apertures measured in each direction, all within ISO 3310-1", due, await VersionOfAsync(sieve, cancellation), cancellation);
        sieve.DueOn = due;
    }

    private async Task StopAsync(SieveInPlay sieve, string reason, CancellationToken cancellation)
    {
        await sieveLife.StopAsync(crew.Technicians[0].Actor, sieve.Id, reason, await VersionOfAsync(sieve, cancellation), cancellation);
        sieve.InService = false;
    }

    private async Task ScrapAsync(SieveInPlay sieve, CancellationToken cancellation) =>
        await sieveLife.ScrapAsync(crew.LaboratoryManager.Actor, sieve.Id, "Dent of 3 mm in the mesh, cannot be mended; frame marked and thrown away", await VersionOfAsync(sieve, cancellation), cancellation);

    private async Task<long> VersionOfAsync(SieveInPlay sieve, CancellationToken cancellation) =>
        (await sieveRegister.FindAsync(crew.LaboratoryManager.Actor, sieve.Id, cancellation))!.Version;

    private async Task FailAsync(BalanceInPlay balance, CancellationToken cancellation)
    {
        await balanceTesting.CheckAsync(crew.Technicians[1].Actor, balance.Id, Read(balance, 200.0183), CheckCircumstances.Ready with { WeightId = weight }, null, cancellation);
        balance.InService = false;
    }
}

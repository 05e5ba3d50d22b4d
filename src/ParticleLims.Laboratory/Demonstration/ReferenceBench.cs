using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>The checks of the demonstration's worn sieve with glass beads: good at first, until its apertures have widened. Then a case asks for a decision on every lot since the last good check.</summary>
internal sealed class ReferenceBench(SieveMeasuring measuring, SieveRegister register, EquipmentFailing failing, EquipmentFailureReading failures, Crew crew, History history, HistoryClock clock, DemonstrationOptions options)
{
    private const string Curve = "75 10 0.4\n82 25 0.4\n90 50 0.4\n98 75 0.4\n106 90 0.4";
    private static readonly double[] CheckedAt = [0.08, 0.3, 0.56];
    private readonly Chance chance = new Chance(options.Seed).For(-3);
    private Guid beads;
    private DateTimeOffset lastGood;

    /// <summary>Enters the beads and plans the checks. Before each one the balance is checked as on any day.</summary>
    public async Task PlanAsync(Timeline timeline, SieveInPlay sieve, BalanceInPlay balance, Func<Task> checkBalanceAsync, CancellationToken cancellation)
    {
        beads = await measuring.AddMaterialAsync(
            crew.LaboratoryManager.Actor, new MaterialCard("Glass beads 75 to 106 µm", "GB-90-3", "RM-GB-90-3", WorkingTime.DayOf(clock.End).AddYears(2), Curve), null, cancellation);
        foreach (var part in CheckedAt)
        {
            timeline.Add(history.AtPart(part), async () =>
            {
                await checkBalanceAsync();
                await CheckAsync(sieve, balance, cancellation);
            });
        }
    }

    private async Task CheckAsync(SieveInPlay sieve, BalanceInPlay balance, CancellationToken cancellation)
    {
        var elapsed = history.PartAt(clock.Now);
        var passing = 50 + (25 * Math.Log(sieve.Effective(elapsed) / 90) / Math.Log(98.0 / 90));
        var sievings = Enumerable.Range(0, 3).Select(_ => Sieving(sieve.Tare(elapsed), passing + (0.15 * chance.Normal()))).ToList();
        clock.Pass(chance.Between(1_500, 2_400));
        var by = crew.Technicians[0].Actor;
        var passed = await measuring.CheckAsync(by, sieve.Id, beads, balance.Id, sievings, await VersionOfAsync(sieve, cancellation), null, cancellation);
        if (passed)
        {
            lastGood = clock.Now;
        }
        else if (sieve.InService)
        {
            sieve.InService = false;
            await FollowAsync(sieve, cancellation);
        }
    }

    private async Task FollowAsync(SieveInPlay sieve, CancellationToken cancellation)
    {
        clock.Pass(chance.Between(1_200, 2_400));
        var manager = crew.QualityManager;
        var id = await failing.MarkAsync<TestSieve>(crew.LaboratoryManager.Actor, sieve.Id, "By the glass beads its apertures have widened by 2 %", lastGood, await VersionOfAsync(sieve, cancellation), null, cancellation);
        var failure = (await failures.FindAsync(manager.Actor, id, cancellation))!;
        foreach (var lot in failure.Lots)
        {
            clock.Pass(chance.Between(200, 500));
            await failing.DecideAsync(manager.Actor, id, lot.LotId, TouchedLotDecision.ResultsStand, "Its passing at 90 µm read too high by less than its uncertainty; every verdict stays", (await failures.FindAsync(manager.Actor, id, cancellation))!.Version, cancellation);
        }

        clock.Pass(chance.Between(300, 600));
        await failing.CloseAsync(
            manager.Actor, id, "Worn by a year of sieving; the sieve stays out, its successor is in service", await crew.ProveAsync(manager, cancellation), (await failures.FindAsync(manager.Actor, id, cancellation))!.Version, cancellation);
    }

    private async Task<long> VersionOfAsync(SieveInPlay sieve, CancellationToken cancellation) => (await register.FindAsync(crew.LaboratoryManager.Actor, sieve.Id, cancellation))!.Version;

    private ReferenceSieving Sieving(double tare, double passing)
    {
        var portion = chance.Between(9.8, 10.2);
        return new ReferenceSieving(Milligrams(tare), Milligrams(tare + portion), Milligrams(tare + (portion * (1 - (passing / 100)))));
    }

    private static Mass Milligrams(double grams) => Mass.FromMicrograms((long)Math.Round(grams * 1_000) * 1_000);
}

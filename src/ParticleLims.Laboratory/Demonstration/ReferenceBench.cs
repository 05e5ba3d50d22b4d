using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>The checks of the demonstration's worn sieve with glass beads: good at first, until its apertures have widened.</summary>
internal sealed class ReferenceBench(SieveMeasuring measuring, SieveRegister register, Crew crew, History history, HistoryClock clock, DemonstrationOptions options)
{
    private const string Curve = "75 10 0.4\n82 25 0.4\n90 50 0.4\n98 75 0.4\n106 90 0.4";
    private static readonly double[] CheckedAt = [0.08, 0.3, 0.56];
    private readonly Chance chance = new Chance(options.Seed).For(-3);
    private Guid beads;

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
        sieve.InService = await measuring.CheckAsync(by, sieve.Id, beads, balance.Id, sievings, (await register.FindAsync(by, sieve.Id, cancellation))!.Version, null, cancellation) && sieve.InService;
    }

    private ReferenceSieving Sieving(double tare, double passing)
    {
        var portion = chance.Between(9.8, 10.2);
        return new ReferenceSieving(Milligrams(tare), Milligrams(tare + portion), Milligrams(tare + (portion * (1 - (passing / 100)))));
    }

    private static Mass Milligrams(double grams) => Mass.FromMicrograms((long)Math.Round(grams * 1_000) * 1_000);
}

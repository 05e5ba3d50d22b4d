using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>The sieving units of the demonstration, and the checks of their year.</summary>
internal sealed class UnitBench(SievingUnitRegister register, EquipmentLife<SievingUnit> life, UnitChecking checking, DemonstrationOptions options, Crew crew, History history, HistoryClock clock)
{
    private readonly Chance chance = new Chance(options.Seed).For(-4);

    /// <summary>The air-jet unit.</summary>
    public Guid AirJet { get; private set; }

    /// <summary>The shaker for stacks.</summary>
    public Guid Shaker { get; private set; }

    /// <summary>Registers and commissions both, and plans their checks.</summary>
    public async Task FurnishAsync(Timeline timeline, CancellationToken cancellation)
    {
        AirJet = await AddAsync(new SievingUnitCard("AJ-07", "Air jet 1", "Laboratory, bench 1", IsAirJet: true, new GaugeCard(options.Gauge.Host, options.Gauge.Port, PressureUnit.Kilopascal)) { Plate = DocumentBench.Unit(isAirJet: true) }, cancellation);
        Shaker = await AddAsync(new SievingUnitCard("SH-02", "Shaker 2", "Laboratory, side room", IsAirJet: false) { Plate = DocumentBench.Unit(isAirJet: false) }, cancellation);
        PlanChecks(timeline, cancellation);
    }

    // Each unit is checked four times in its year, the filter more often; the air jet's timer drifts and stays within its percent.
    private void PlanChecks(Timeline timeline, CancellationToken cancellation)
    {
        for (var round = 1; round <= 4; round++)
        {
            var (part, late) = ((round * 0.24) - 0.04, round * 0.4);
            timeline.Add(history.AtPart(part), () => CheckAsync(AirJet, [
                new UnitFound(UnitCheckKind.Timer, 180m, Math.Round(180m + (decimal)late, 1), "Stopwatch SW-3", Good: true, string.Empty),
                new UnitFound(UnitCheckKind.NozzleSpeed, 20m, Math.Round(20m + (decimal)(0.1 * chance.Normal()), 1), "Tachometer TM-1", Good: true, string.Empty),
                new UnitFound(UnitCheckKind.PressureGauge, 3.6m, Math.Round(3.6m + (decimal)(0.02 * chance.Normal()), 3), "Gauge PG-11", Good: true, string.Empty),
                UnitFound.Care(UnitCheckKind.Hose, good: true, "No crack, seals clean")], cancellation));
            timeline.Add(history.AtPart(part + 0.01), () => CheckAsync(Shaker, [
                new UnitFound(UnitCheckKind.Timer, 600m, 600.3m, "Stopwatch SW-3", Good: true, string.Empty),
                new UnitFound(UnitCheckKind.Amplitude, 1.5m, Math.Round(1.5m + (decimal)(0.02 * chance.Normal()), 3), "Gauge AG-2", Good: true, string.Empty),
                UnitFound.Care(UnitCheckKind.Clamps, good: true, "A stack of eight held still by hand and after a minute of shaking")], cancellation));
        }

        for (var round = 1; round <= 7; round++)
        {
            timeline.Add(history.AtPart((round * 0.135) + 0.02), () => CheckAsync(AirJet, [UnitFound.Care(UnitCheckKind.Filter, good: true, "Emptied, filter shaken out and looked at")], cancellation));
        }
    }

    private async Task CheckAsync(Guid unit, UnitFound[] found, CancellationToken cancellation)
    {
        foreach (var one in found)
        {
            var version = (await register.FindAsync(crew.LaboratoryManager.Actor, unit, cancellation))!.Version;
            await checking.CheckAsync(crew.LaboratoryManager.Actor, unit, one, version, null, cancellation);
            clock.Pass(chance.Between(120, 420));
        }
    }

    private async Task<Guid> AddAsync(SievingUnitCard card, CancellationToken cancellation)
    {
        var id = await register.RegisterAsync(crew.LaboratoryManager.Actor, card, null, cancellation);
        clock.Pass(120);
        await life.CommissionAsync(crew.LaboratoryManager.Actor, id, $"Timer compared with the laboratory's clock over 300 s{(card.IsAirJet ? "; gauge at zero with the vacuum off; filter new" : string.Empty)}", WorkingTime.DayOf(clock.End).AddDays(70), 1, cancellation);
        clock.Pass(120);
        return id;
    }
}

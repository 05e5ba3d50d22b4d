using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>The register of sieving units.</summary>
public sealed class SievingUnitRegister(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind RegisterDeed = new("sieving-units.register", "Sieving unit registered", Permission.KeepEquipment);
    private static readonly DeedKind GaugeDeed = new("sieving-units.change-gauge", "Sieving unit's gauge changed", Permission.KeepEquipment);
    private static readonly DeedKind FollowDeed = new("sieving-units.follow-simulation", "Simulated gauge's address followed", Permission.ActAsProgram);

    /// <summary>Registers a unit; it awaits its commissioning.</summary>
    public Task<Guid> RegisterAsync(Actor actor, SievingUnitCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RegisterDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            card.Check();
            var serial = card.Serial.Trim();
            if (await scope.Data.SievingUnits.AnyAsync(unit => unit.Serial == serial, token))
            {
                throw new RefusedException("unit-serial-used", $"There is a sieving unit {serial} already.", "serial");
            }

            var added = card.Add(scope, RegisterDeed.Words, card.Place);
            scope.About(nameof(SievingUnit), added.Id, added.Label);
            return added.Id;
        }, cancellation);

    /// <summary>Changes where a unit's gauge answers, or that it has none.</summary>
    public Task<bool> ChangeGaugeAsync(Actor actor, Guid id, GaugeCard? gauge, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(GaugeDeed, actor), async (scope, token) =>
        {
            var unit = await scope.FindKeptAsync<SievingUnit>(id, "sieving unit", token);
            DeedScope.RequireVersion(unit, version, unit.Label);
            GaugeCard.Require(unit.IsAirJet, gauge);
            GaugeCard.Put(unit, gauge);
            scope.About(nameof(SievingUnit), unit.Id, unit.Label);
            return true;
        }, cancellation);

    /// <summary>Notes where the simulated gauge of the demonstration answers; done by the program.</summary>
    public Task<bool> FollowSimulationAsync(Guid id, string host, int port, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(FollowDeed, Actor.Program), async (scope, token) =>
        {
            if (!(await SettingsKeeping.OfAsync(scope.Data, token)).Demonstration)
            {
                throw new RefusedException("not-demonstration", "Only the demonstration has a simulated gauge; here a gauge's address is changed by whoever keeps the equipment.");
            }

            var unit = await scope.FindAsync<SievingUnit>(id, "sieving unit", token);
            (unit.GaugeHost, unit.GaugePort) = (host, port);
            scope.About(nameof(SievingUnit), unit.Id, unit.Label);
            return true;
        }, cancellation);

    /// <summary>The units whose gauges the program listens to: those in service. Asked by the program itself.</summary>
    public Task<List<SievingUnit>> WithGaugeAsync(CancellationToken cancellation) =>
        reading.ReadAsync(Actor.Program, Permission.ActAsProgram, (data, _, token) => data.SievingUnits.Where(unit => unit.State == EquipmentState.InService && unit.GaugeHost != null).OrderBy(unit => unit.Name).ToListAsync(token), cancellation);

    /// <summary>All units.</summary>
    public Task<List<SievingUnit>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.SievingUnits.OrderBy(unit => unit.Name).ThenBy(unit => unit.Serial).ToListAsync(token), cancellation);

    /// <summary>One unit.</summary>
    public Task<SievingUnit?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.SievingUnits.FirstOrDefaultAsync(unit => unit.Id == id, token), cancellation);
}

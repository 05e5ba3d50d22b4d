using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>What somebody found at a sieving unit.</summary>
/// <param name="Kind">What was checked.</param>
/// <param name="Indicated">What was set or shown, in the check's unit; null where it has no figure.</param>
/// <param name="Measured">What the instrument beside it showed, in the same unit.</param>
/// <param name="Instrument">That instrument, with its number.</param>
/// <param name="Good">Without a figure: whether it is as it should be, cleaned or replaced.</param>
/// <param name="Words">In the inspector's words.</param>
public sealed record UnitFound(UnitCheckKind Kind, decimal? Indicated, decimal? Measured, string Instrument, bool Good, string Words)
{
    /// <summary>A check of something without a figure.</summary>
    public static UnitFound Care(UnitCheckKind kind, bool good, string words) => new(kind, null, null, string.Empty, good, words);
}

/// <summary>How often something is checked, as it is asked.</summary>
public sealed record UnitCheckPlanCard(UnitCheckKind Kind, int? EveryDays, int? EveryHours, decimal? TolerancePercent);

/// <summary>Checks sieving units and says how often.</summary>
public sealed class UnitChecking(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind CheckDeed = new("sieving-units.check", "Sieving unit checked", Permission.CheckSievingUnits);
    private static readonly DeedKind PlanDeed = new("sieving-units.check-plan", "Sieving unit's intervals changed", Permission.KeepEquipment, ReasonRequired: true);

    /// <summary>Keeps a check. One that fails takes the unit out of service at once. Answers whether it passed.</summary>
    public Task<bool> CheckAsync(Actor actor, Guid unitId, UnitFound found, long version, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CheckDeed, actor, key) { Asked = new { unitId, found } }, async (scope, token) =>
        {
            var unit = await FindAsync(scope, unitId, version, token);
            Require(unit, found);
            var plan = await PlanAsync(scope.Data, unit.Id, found.Kind, token);
            var (figure, words) = (found.Kind.Figure(), found.Words.Trim());
            var (indicated, measured) = (figure?.Stored(found.Indicated!.Value), figure?.Stored(found.Measured!.Value));
            var check = new UnitCheck
            {
                Id = scope.NewId(), UnitId = unit.Id, Kind = found.Kind, At = scope.Now, Day = (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now), PersonName = scope.By.Name,
                Indicated = indicated, Measured = measured, TolerancePercent = plan.TolerancePercent, Instrument = found.Instrument.Trim(), Words = words,
                Passed = figure is null ? found.Good : UnitCheck.OffPercent(indicated!.Value, measured!.Value) <= plan.TolerancePercent,
            };
            scope.Data.Add(check);

            // The unit counts as changed, so that another window's version of it grows stale.
            scope.Data.Entry(unit).State = EntityState.Modified;
            EquipmentKeeping.Tell(scope, unit.Id, CheckDeed.Words, $"{found.Kind.Words()}: {(check.Found == words ? words : $"{check.Found}. {words}")}");
            if (!check.Passed && unit.State == EquipmentState.InService)
            {
                unit.Move(EquipmentState.OutOfService, $"check of the {found.Kind.Words()} failed: {check.Found}", EquipmentState.InService);
                EquipmentKeeping.Tell(scope, unit.Id, "Taken out of service", $"The check of the {found.Kind.Words()} failed.");
            }

            return check.Passed;
        }, cancellation);

    /// <summary>Changes how often something is checked at a unit and by how much it may be off.</summary>
    public Task<bool> PlanAsync(Actor actor, Guid unitId, UnitCheckPlanCard card, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(PlanDeed, actor, Reason: reason), async (scope, token) =>
        {
            var unit = await FindAsync(scope, unitId, version, token);
            RequireKind(unit, card.Kind);
            var plan = await scope.Data.UnitCheckPlans.AsTracking().FirstOrDefaultAsync(one => one.UnitId == unit.Id && one.Kind == card.Kind, token);
            if (plan is null)
            {
                plan = new UnitCheckPlan { UnitId = unit.Id, Kind = card.Kind };
                scope.Data.Add(plan);
            }

            (plan.EveryDays, plan.EveryHours, plan.TolerancePercent) = (card.EveryDays, card.EveryHours, card.TolerancePercent);
            plan.Check();
            scope.Data.Entry(unit).State = EntityState.Modified;
            return true;
        }, cancellation);

    /// <summary>The checks of a unit, newest first, at most a hundred.</summary>
    public Task<List<UnitCheck>> HistoryAsync(Actor actor, Guid unitId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.UnitChecks.Where(check => check.UnitId == unitId).OrderByDescending(check => check.At).Take(100).ToListAsync(token), cancellation);

    /// <summary>The plan of a check: the laboratory's own, or else the usual one.</summary>
    internal static async Task<UnitCheckPlan> PlanAsync(LaboratoryContext data, Guid unitId, UnitCheckKind kind, CancellationToken cancellation) =>
        await data.UnitCheckPlans.AsNoTracking().FirstOrDefaultAsync(plan => plan.UnitId == unitId && plan.Kind == kind, cancellation) ?? UnitCheckPlan.Usual(unitId, kind);

    private static void RequireKind(SievingUnit unit, UnitCheckKind kind)
    {
        if (!UnitCheckKinds.Of(unit.IsAirJet).Contains(kind))
        {
            throw new RefusedException("unit-check", $"The {unit.Label} is {(unit.IsAirJet ? "an air-jet unit" : "a shaker")}: it has no such check ({kind.Words()}).", "kind");
        }
    }

    private static void Require(SievingUnit unit, UnitFound found)
    {
        RequireKind(unit, found.Kind);
        if (unit.State == EquipmentState.Scrapped)
        {
            throw new RefusedException("equipment-state", $"The {unit.Label} is scrapped; there is nothing to check.");
        }

        if (found.Kind.Figure() is not { } figure)
        {
            if (found.Words.Trim().Length < 5)
            {
                throw new RefusedException("unit-check-words", "Say in a few words what you looked at and did (at least five letters).", "words");
            }

            return;
        }

        if (found.Indicated is not (> 0m and < 1_000_000m) || found.Measured is not (> 0m and < 1_000_000m) || figure.Stored(found.Indicated.Value) == 0)
        {
            throw new RefusedException("unit-check-figures", $"Write what was set or shown and what was measured beside it, both in {figure.Symbol} and above 0.", found.Indicated is > 0m and < 1_000_000m ? "measured" : "indicated");
        }

        if (found.Instrument.Trim().Length is < 3 or > 100)
        {
            throw new RefusedException("unit-check-instrument", "Name the instrument that it was compared with, by its number (3 to 100 characters). A unit is never the standard for itself.", "instrument");
        }

        if (string.Equals(found.Instrument.Trim(), unit.Serial, StringComparison.OrdinalIgnoreCase))
        {
            throw new RefusedException("unit-on-itself", "The unit was compared with itself. Use another instrument, one with a certificate.", "instrument");
        }
    }

    private static async Task<SievingUnit> FindAsync(DeedScope scope, Guid id, long version, CancellationToken cancellation)
    {
        var unit = await scope.FindKeptAsync<SievingUnit>(id, "sieving unit", cancellation);
        DeedScope.RequireVersion(unit, version, unit.Label);
        scope.About(nameof(SievingUnit), unit.Id, unit.Label);
        return unit;
    }
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What a run is carried out with.</summary>
/// <param name="BalanceId">The balance for all its weighings.</param>
/// <param name="SieveIds">One sieve for each aperture of the method, the finest first.</param>
/// <param name="SievingUnitId">The sieving unit; null where none is named.</param>
public sealed record RunEquipment(Guid BalanceId, IReadOnlyList<Guid> SieveIds, Guid? SievingUnitId = null);

/// <summary>Takes a planned run up with named individual sieves and one balance, or gives a run up.</summary>
public sealed class RunStart(WritePath writing, IOutOfSpecification outOfSpecification)
{
    private static readonly DeedKind StartDeed = new("runs.start", "Run started", Permission.CarryOutRuns);
    private static readonly DeedKind AbandonDeed = new("runs.abandon", "Run abandoned", Permission.CarryOutRuns, ReasonRequired: true);

    /// <summary>Starts a planned run. All of its equipment is fit for use at this moment, or the refusal says what is not and who can put it right. The record keeps which cautions the person confirmed.</summary>
    /// <param name="actor">Who starts it.</param>
    /// <param name="runId">The planned run.</param>
    /// <param name="equipment">Balance, sieves and sieving unit.</param>
    /// <param name="version">The run's version as it was read.</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cautionsConfirmed">The confirmed cautions in words; null where no screen asked.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<bool> StartAsync(Actor actor, Guid runId, RunEquipment equipment, long version, string? key, string? cautionsConfirmed, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(StartDeed, actor, key, cautionsConfirmed) { Asked = new { runId, equipment } }, async (scope, token) =>
        {
            var run = await scope.FindAsync<Run>(runId, "run", token);
            scope.About("Run", run.Id, run.Label);
            DeedScope.RequireVersion(run, version, run.Label);
            var method = await scope.MethodOfAsync(run);
            await RequireUndecidedAsync(scope, run, token);
            await outOfSpecification.RequireExplainedAsync(scope, run, token);
            await RunAuthorisation.TakeUpAsync(scope, run, method, token);
            await RetestDuties.RequireAnotherPersonAsync(scope, run, token);
            var hazards = await RequireHazardsAsync(scope, run, token);
            if (cautionsConfirmed is not null)
            {
                await CautionReading.RequireReadAsync(scope, hazards, method.Procedure, token);
            }

            var balance = await scope.FindAsync<Balance>(equipment.BalanceId, "balance", token);
            var fitness = await BalanceFitness.OfAsync(scope.Data, balance, method, scope.Now, token);
            Refuse(await FitnessOverriding.OrAllowedAsync(scope.Data, run.Id, balance, fitness.Unfit, token), "balance-unfit");
            var today = (await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now);
            run.Sieves.AddRange(await ChosenAsync(scope, run, method, equipment.SieveIds, today, token));
            run.Start(scope, (balance.Id, Allowed(fitness.Snapshot, fitness.Unfit), fitness.Minimum), await UnitAsync(scope, run, method, equipment.SievingUnitId, token));
            return true;
        }, cancellation);

    /// <summary>
    /// Gives a run up with a reason; it stays in the lot's history and a new one is planned in its place, unless the lot is decided. A held lot waits for it like any other. Where its finished sieves showed a value
    /// out of specification already, that is investigated as if it had been submitted: nobody gets rid of a value by giving its run up.
    /// </summary>
    public Task<bool> AbandonAsync(Actor actor, Guid runId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AbandonDeed, actor, Reason: reason), async (scope, token) =>
        {
            var run = await scope.WholeRunAsync(runId);
            scope.About("Run", run.Id, run.Label);
            DeedScope.RequireVersion(run, version, run.Label);
            run.Abandon(reason.Trim());
            if (await OutSoFar.WordsAsync(scope, run, token) is { } seen)
            {
                await outOfSpecification.GivenUpAsync(scope, run, $"{seen}; run {run.Number} was abandoned after that: {reason.Trim()}", token);
            }

            if (!(await scope.FindAsync<Lot>(run.LotId, "lot", token)).IsDecided)
            {
                scope.Data.Add(run.Replacement(scope, await scope.NextNumberAsync("R", token)));
            }

            return true;
        }, cancellation);

    private static async Task RequireUndecidedAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var lot = await scope.FindAsync<Lot>(run.LotId, "lot", cancellation);
        if (lot.IsDecided)
        {
            throw new RefusedException("lot-closed", $"Lot {lot.Number} is {lot.State.Words()}: no further run of it is started.");
        }
    }

    private static async Task<Hazards> RequireHazardsAsync(DeedScope scope, Run run, CancellationToken cancellation) =>
        (await scope.FindAsync<Product>(run.ProductId, "product", cancellation)).Hazards
            ?? throw new RefusedException("hazards-missing", "No hazard data is recorded for this product. Do not open, split or sieve the sample until its hazards are known and recorded.");

    private static async Task<(Guid Id, string Snapshot)?> UnitAsync(DeedScope scope, Run run, MethodVersion method, Guid? id, CancellationToken cancellation)
    {
        if (id is not { } named)
        {
            return null;
        }

        var unit = await scope.FindAsync<SievingUnit>(named, "sieving unit", cancellation);
        Refuse(unit.IsAirJet == (method.Procedure == SievingProcedure.NestedStack) ? $"The {unit.Label} cannot carry out this procedure: {(unit.IsAirJet ? "it is an air-jet unit" : "it draws no air through the sieve")}." : null, "unit-wrong");
        var settings = await SettingsKeeping.OfAsync(scope.Data, cancellation);
        var fitness = await UnitFitness.OfAsync(scope.Data, unit, settings, settings.LocalDay(scope.Now), cancellation);
        Refuse(await FitnessOverriding.OrAllowedAsync(scope.Data, run.Id, unit, fitness.Unfit, cancellation), "unit-unfit");
        return (unit.Id, Allowed(fitness.Snapshot, fitness.Unfit));
    }

    private static string Allowed(string snapshot, string? unfit) => unfit is null ? snapshot : $"{snapshot}; allowed by signature: {unfit}";

    private static async Task<List<RunSieve>> ChosenAsync(DeedScope scope, Run run, MethodVersion method, IReadOnlyList<Guid> sieveIds, DateOnly today, CancellationToken cancellation)
    {
        var wanted = method.Sieves.OrderBy(sieve => sieve.Position).ToList();
        if (sieveIds.Count != wanted.Count || sieveIds.Distinct().Count() != sieveIds.Count)
        {
            throw new RefusedException("sieves-chosen", $"The method asks for {wanted.Count} different sieves.", "sieves");
        }

        var chosen = new List<RunSieve>();
        var tables = await ToleranceKeeping.OwnAsync(scope.Data, cancellation);
        foreach (var (place, id) in wanted.Zip(sieveIds))
        {
            var sieve = await scope.FindAsync<TestSieve>(id, "sieve", cancellation);
            if (sieve.Aperture != place.Aperture)
            {
                throw new RefusedException("sieve-wrong", $"The {sieve.Label} has not the aperture {place.Aperture} that the method asks for here.", "sieves");
            }

            var fitness = await SieveFitness.OfAsync(scope.Data, sieve, today, cancellation);
            Refuse(await FitnessOverriding.OrAllowedAsync(scope.Data, run.Id, sieve, fitness.Unfit, cancellation), "sieve-unfit");
            await RequireFreeAsync(scope, run, sieve, cancellation);
            var check = await SieveMeasuring.LastAsync(scope.Data, sieve.Id, cancellation);
            chosen.Add(new RunSieve
            {
                RunId = run.Id, Position = place.Position, Aperture = sieve.Aperture, SieveId = sieve.Id, SieveSerial = sieve.Serial, FrameMillimetres = sieve.FrameMillimetres,
                EffectiveAperture = check?.Effective, EffectiveUncertainty = check?.Uncertainty,
                MeanDeviation = tables.GetValueOrDefault(sieve.Standard)?.Find(sieve.Aperture)?.MeanMicrometres is { } deviation ? Aperture.FromMicrometres(deviation) : null,
                FitnessThen = Allowed(fitness.Snapshot, fitness.Unfit),
            });
        }

        Refuse(method.Procedure == SievingProcedure.NestedStack ? FramesApart(chosen) : null, "stack-frames");
        return chosen;
    }

    // 200 mm and 8 in (203 mm) look alike on the shelf and do not close on each other (common practice, no source).
    private static string? FramesApart(List<RunSieve> chosen) => chosen.Find(sieve => sieve.FrameMillimetres != chosen[0].FrameMillimetres) is { } other
        ? $"The sieves of a stack have frames of one diameter: {chosen[0].SieveSerial} has {Millimetres(chosen[0])}, {other.SieveSerial} has {Millimetres(other)}. Take sieves that close on each other, or powder is lost between them."
        : null;

    private static string Millimetres(RunSieve sieve) => string.Create(CultureInfo.InvariantCulture, $"{sieve.FrameMillimetres} mm");

    private static async Task RequireFreeAsync(DeedScope scope, Run run, TestSieve sieve, CancellationToken cancellation)
    {
        var other = await scope.Data.Runs.Where(one => one.State == RunState.InProgress && one.Id != run.Id && one.Sieves.Any(used => used.SieveId == sieve.Id))
            .Select(one => one.Number).FirstOrDefaultAsync(cancellation);
        Refuse(other is null ? null : $"The {sieve.Label} is in use in run {other}. Take another one, or finish that run first.", "sieve-in-use");
    }

    private static void Refuse(string? reason, string code)
    {
        if (reason is not null)
        {
            throw new RefusedException(code, reason, "equipment");
        }
    }
}

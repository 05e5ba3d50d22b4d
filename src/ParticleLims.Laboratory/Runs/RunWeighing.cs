using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What the terminal may say after a weighing: it is on disk.</summary>
public sealed record WeighingTaken(Guid Id, DateTimeOffset At);

/// <summary>Takes the weighings of a run, each durable before it is answered.</summary>
public sealed class RunWeighing(WritePath writing)
{
    private static readonly DeedKind TakeDeed = new("runs.weigh", "Weighing taken", Permission.CarryOutRuns);
    private static readonly DeedKind AgainDeed = new("runs.weigh-again", "Weighing taken again", Permission.CarryOutRuns, ReasonRequired: true);

    /// <summary>Takes the weighing of the step that is next. The same key again answers the first weighing; another tab that is behind is refused.</summary>
    public Task<WeighingTaken> TakeAsync(Actor actor, Guid runId, RunStep step, BalanceReading reading, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(TakeDeed, actor, key) { Asked = new { runId, step } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            RequireNext(run, method, step);
            return await AddAsync(scope, run, method, step, new TakenReading(reading), null, token);
        }, cancellation);

    /// <summary>Takes a mistaken weighing again with a reason; both stay.</summary>
    public Task<WeighingTaken> TakeAgainAsync(Actor actor, Guid runId, Guid weighingId, BalanceReading reading, string reason, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AgainDeed, actor, key, reason) { Asked = new { runId, weighingId } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            var mistaken = Mistaken(run, method, weighingId);
            return await AddAsync(scope, run, method, RunStep.Of(mistaken), new TakenReading(reading), mistaken, token);
        }, cancellation);

    /// <summary>The run that a weighing is taken of, and its method.</summary>
    internal static async Task<(Run Run, MethodVersion Method)> FindAsync(DeedScope scope, Guid runId, CancellationToken cancellation)
    {
        var run = await scope.WholeRunAsync(runId);
        scope.About("Run", run.Id, run.Label);
        run.RequireGoingOn();
        var method = await scope.MethodOfAsync(run);
        await RunAuthorisation.TakeUpAsync(scope, run, method, cancellation);
        await RetestDuties.RequireAnotherPersonAsync(scope, run, cancellation);
        return (run, method);
    }

    /// <summary>The weighing to be taken again, if it still may be.</summary>
    internal static Weighing Mistaken(Run run, MethodVersion method, Guid weighingId)
    {
        var mistaken = run.StandingWeighings.FirstOrDefault(weighing => weighing.Id == weighingId)
            ?? throw new RefusedException("weighing-superseded", "This weighing was taken again already. Look at the run anew.");
        return RunPlan.MayWeighAgain(run, method, mistaken)
            ? mistaken
            : throw new RefusedException("weighing-past", $"The {mistaken.Kind.Words()} cannot be weighed again: the powder has moved on since. Abandon the run with a reason, or go on and tell the reviewer.");
    }

    /// <summary>Refuses any step but the next.</summary>
    internal static void RequireNext(Run run, MethodVersion method, RunStep step)
    {
        if (step.Weighing is { } kind && run.Find(kind, step.Position, step.Round) is { } taken)
        {
            throw new RefusedException("step-done", $"This was weighed at {taken.At.UtcDateTime:HH:mm:ss} UTC by {taken.PersonName} from {taken.Terminal}. The run has gone on; look at it anew.");
        }

        if (RunPlan.Next(run, method) != step || step.Kind != RunStepKind.Weigh)
        {
            throw new RefusedException("step-order", "This is not the run's next step. Look at the run anew: it may have gone on at another terminal.");
        }

        if (method.SievesScanned && step.Weighing == WeighingKind.Empty && !run.IsScanned(step.Position, ScanPlace.Pan) && run.Sieves.Find(sieve => sieve.Position == step.Position) is { } unseen)
        {
            throw new RefusedException("sieve-not-scanned", $"The method asks for each sieve's label. Scan the {unseen.Aperture} sieve {unseen.SieveSerial} first.", "sieves");
        }
    }

    private static async Task RequireFitAsync(DeedScope scope, Run run, MethodVersion method, int position, CancellationToken cancellation)
    {
        await TerminalRules.RequireWeighingHereAsync(scope, cancellation);
        var balance = await scope.FindAsync<Balance>(run.BalanceId!.Value, "balance", cancellation);
        var today = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).LocalDay(scope.Now);
        var isChecked = await BalanceRegister.IsCheckedAsync(scope.Data, balance, today, cancellation);
        var isUsed = isChecked || method.UncheckedBalance == UncheckedBalance.Flagged;
        var unfit = await FitnessOverriding.OrAllowedAsync(scope.Data, run.Id, balance, await BalanceRegister.StandingReasonAsync(scope.Data, balance, today, cancellation) ?? (isUsed ? null : BalanceRegister.NotCheckedToday(balance)), cancellation);
        if (!isChecked && isUsed)
        {
            run.WeighUnchecked();
        }

        if (unfit is null && run.Sieves.Find(sieve => sieve.Position == position) is { } used)
        {
            var sieve = await scope.FindAsync<TestSieve>(used.SieveId, "sieve", cancellation);
            unfit = await FitnessOverriding.OrAllowedAsync(scope.Data, run.Id, sieve, sieve.UnfitReason(today), cancellation);
        }

        if (unfit is not null)
        {
            throw new RefusedException("equipment-unfit", unfit, "equipment");
        }
    }

    /// <summary>Adds a weighing after every check that it has to pass, whichever way it came in.</summary>
    internal static async Task<WeighingTaken> AddAsync(DeedScope scope, Run run, MethodVersion method, RunStep step, TakenReading taken, Weighing? mistaken, CancellationToken cancellation)
    {
        await RequireFitAsync(scope, run, method, step.Position, cancellation);
        var reading = taken.Reading;
        var balance = await scope.FindAsync<Balance>(run.BalanceId!.Value, "balance", cancellation);
        reading.RequireUsable(balance, scope.Now);
        var tares = step.Weighing == WeighingKind.Empty ? await TareWatching.OfAsync(scope, run, step.Position, mistaken, cancellation) : null;
        Plausibility.Require(run, method, step, reading.Mass, balance, tares?.Usual);
        tares?.See(scope, reading.Mass);
        var weighing = new Weighing
        {
            Id = scope.NewId(), RunId = run.Id, Kind = step.Weighing!.Value, Position = step.Position, Round = step.Round, Mass = reading.Mass, Decimals = reading.Decimals, RawLine = reading.RawLine,
            BalanceId = reading.BalanceId, WayIn = reading.WayIn, ConfirmedById = taken.Confirmer?.PersonId, ConfirmedByName = taken.Confirmer?.Name, PersonId = scope.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal, At = scope.Now,
            SupersedesId = mistaken?.Id, Reason = mistaken is null ? null : scope.Deed.Reason!.Trim(),
        };
        scope.Data.Add(weighing);

        // The run counts as changed too, so that another tab's version of it grows stale.
        scope.Data.Entry(run).State = EntityState.Modified;
        return new WeighingTaken(weighing.Id, weighing.At);
    }
}

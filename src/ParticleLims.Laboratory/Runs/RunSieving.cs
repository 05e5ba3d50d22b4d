using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Starts and stops the sieving of a run. The start stands on disk, so the countdown goes on after a restart; several stretches add up.</summary>
public sealed class RunSieving(WritePath writing)
{
    private static readonly DeedKind BeginDeed = new("runs.sieve-begin", "Sieving begun", Permission.CarryOutRuns);
    private static readonly DeedKind EndDeed = new("runs.sieve-end", "Sieving ended", Permission.CarryOutRuns);

    /// <summary>Begins a stretch on the sieve whose turn it is.</summary>
    public Task<DateTimeOffset> BeginAsync(Actor actor, Guid runId, int position, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(BeginDeed, actor, key) { Asked = new { runId, position } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            if (RunPlan.Next(run, method) is not { Kind: RunStepKind.Sieve } step || step.Position != position)
            {
                throw new RefusedException("step-order", "Sieving is not the run's next step. Look at the run anew.");
            }

            if (run.Intervals.Exists(interval => interval.EndedAt is null))
            {
                throw new RefusedException("sieving-goes-on", "Sieving is going on already, perhaps begun at another terminal.");
            }

            RequireStacked(run, method, step);
            scope.Data.Add(new SievingInterval { Id = scope.NewId(), RunId = run.Id, Position = position, Round = step.Round, StartedAt = scope.Now, PersonId = scope.PersonId, PersonName = scope.By.Name });
            scope.Data.Entry(run).State = EntityState.Modified;
            return scope.Now;
        }, cancellation);

    /// <summary>Ends the stretch that is going on; answers the seconds that it lasted, at most what the plan left.</summary>
    public Task<int> EndAsync(Actor actor, Guid runId, int position, PressureSeen? pressure, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(EndDeed, actor, key) { Asked = new { runId, position } }, async (scope, token) =>
        {
            pressure?.Check();
            var (run, method) = await FindAsync(scope, runId, token);
            var interval = run.Intervals.Find(interval => interval.Position == position && interval.EndedAt is null)
                ?? throw new RefusedException("sieving-not-going-on", "No sieving is going on at this sieve. It may have been ended at another terminal.");
            var step = RunStep.Sieve(position, interval.Round);
            var left = RunPlan.SecondsPlanned(method, step) - RunPlan.SecondsSieved(run, step);

            // The unit stops by its own timer, so time beyond the plan is time in which nothing was sieved.
            // A clock that was set back proves no sieving at all.
            interval.Seconds = (int)Math.Clamp(Math.Floor((scope.Now - interval.StartedAt).TotalSeconds), 0, left);
            interval.EndedAt = scope.Now;
            (interval.PressureLowest, interval.PressureMean, interval.PressureHighest) = (pressure?.Lowest, pressure?.Mean, pressure?.Highest);
            (interval.PressureSource, interval.PressureCourse) = (pressure?.Source, pressure?.CourseText());
            scope.Data.Entry(run).State = EntityState.Modified;
            return interval.Seconds;
        }, cancellation);

    private static void RequireStacked(Run run, MethodVersion method, RunStep step)
    {
        if (method.SievesScanned && step == RunStep.Sieve(0) && run.Sieves.OrderBy(sieve => sieve.Position).FirstOrDefault(sieve => !run.IsScanned(sieve.Position, ScanPlace.Stack)) is { } missing)
        {
            throw new RefusedException("stack-incomplete", $"The stack is not complete: scan the {missing.Aperture} sieve {missing.SieveSerial} as you put it on.", "sieves");
        }
    }

    private static async Task<(Run Run, MethodVersion Method)> FindAsync(DeedScope scope, Guid runId, CancellationToken cancellation)
    {
        var run = await scope.WholeRunAsync(runId);
        scope.About("Run", run.Id, run.Label);
        run.RequireGoingOn();
        var method = await scope.MethodOfAsync(run);
        await RunAuthorisation.TakeUpAsync(scope, run, method, cancellation);
        await RetestDuties.RequireAnotherPersonAsync(scope, run, cancellation);
        return (run, method);
    }
}

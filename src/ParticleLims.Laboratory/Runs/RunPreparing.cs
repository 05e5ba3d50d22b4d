using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Temperature and relative humidity of the room as somebody read them.</summary>
/// <param name="Temperature">The room's temperature.</param>
/// <param name="HumidityPercent">The relative humidity in percent.</param>
public sealed record RoomConditions(Temperature Temperature, decimal HumidityPercent);

/// <summary>What comes before the first sieve: the room's conditions, drying, conditioning, flow aid. What began stands on disk, so an oven may be left alone until tomorrow.</summary>
public sealed class RunPreparing(WritePath writing)
{
    private static readonly DeedKind ReadDeed = new("runs.conditions", "Conditions of the room read", Permission.CarryOutRuns);
    private static readonly DeedKind BeginDeed = new("runs.prepare-begin", "Preparation begun", Permission.CarryOutRuns);
    private static readonly DeedKind EndDeed = new("runs.prepare-end", "Preparation ended", Permission.CarryOutRuns);
    private static readonly DeedKind MixDeed = new("runs.flow-aid", "Flow aid mixed in", Permission.CarryOutRuns);

    /// <summary>Writes down the room's conditions. They may be read again at any time while the run goes on; the last reading counts.</summary>
    public Task<DateTimeOffset> ReadConditionsAsync(Actor actor, Guid runId, RoomConditions conditions, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReadDeed, actor, key) { Asked = new { runId, conditions } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            Refuse(!method.Preparation.ConditionsRead, "step-order", "The method asks for no conditions of the room.");
            Refuse(conditions.Temperature.Celsius is < -20m or > 60m, "temperature", $"A room at {conditions.Temperature} cannot be right. Read the thermometer again; it shows degrees Celsius.");
            Refuse(conditions.HumidityPercent is < 0m or > 100m, "humidity", "The relative humidity lies between 0 and 100 %.");
            return Add(scope, run, new Preparation
            {
                Id = scope.NewId(), RunId = run.Id, Kind = PreparationKind.RoomConditions, StartedAt = scope.Now, EndedAt = scope.Now, Temperature = conditions.Temperature, HumidityPercent = conditions.HumidityPercent,
                PersonId = scope.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal, EndedByName = scope.By.Name,
            });
        }, cancellation);

    /// <summary>The powder goes into the oven, or is spread out in the room.</summary>
    /// <param name="actor">Who does it.</param>
    /// <param name="runId">The run.</param>
    /// <param name="kind">Drying or conditioning.</param>
    /// <param name="oven">Drying: what the oven's thermometer shows.</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<DateTimeOffset> BeginAsync(Actor actor, Guid runId, PreparationKind kind, Temperature? oven, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(BeginDeed, actor, key) { Asked = new { runId, kind, oven } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            RequireNext(run, method, kind);
            Refuse(run.Preparations.Exists(one => one.Kind == kind && one.EndedAt is null), "preparation-goes-on", $"The {kind.Words()} goes on already, perhaps begun at another terminal.");
            Refuse(kind == PreparationKind.Drying && oven is null, "temperature", "Write down what the oven's thermometer shows.");
            return Add(scope, run, new Preparation
            {
                Id = scope.NewId(), RunId = run.Id, Kind = kind, StartedAt = scope.Now, Temperature = oven, PersonId = scope.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal,
            });
        }, cancellation);

    /// <summary>The powder is out of the oven, or conditioned. Before its time it is refused.</summary>
    public Task<int> EndAsync(Actor actor, Guid runId, PreparationKind kind, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(EndDeed, actor, key) { Asked = new { runId, kind } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            var going = run.Preparations.Find(one => one.Kind == kind && one.EndedAt is null)
                ?? throw new RefusedException("preparation-not-going-on", $"No {kind.Words()} goes on. It may have been ended at another terminal.");
            var ready = going.StartedAt.AddMinutes(Minutes(method, kind));
            Refuse(scope.Now < ready, "preparation-too-short", $"The method asks for {Minutes(method, kind)} min of {kind.Words()}; that is over in {Math.Ceiling((ready - scope.Now).TotalMinutes):0} min. If the powder was taken out too early, abandon the run with the reason.");
            (going.EndedAt, going.EndedByName) = (scope.Now, scope.By.Name);
            scope.Data.Entry(run).State = EntityState.Modified;
            return going.Minutes!.Value;
        }, cancellation);

    /// <summary>The flow aid is mixed in.</summary>
    /// <param name="actor">Who does it.</param>
    /// <param name="runId">The run.</param>
    /// <param name="batch">The batch of the flow aid as its label says.</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<DateTimeOffset> MixFlowAidAsync(Actor actor, Guid runId, string batch, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(MixDeed, actor, key) { Asked = new { runId, batch } }, async (scope, token) =>
        {
            var (run, method) = await FindAsync(scope, runId, token);
            RequireNext(run, method, PreparationKind.FlowAid);
            Refuse(batch.Trim().Length is < 1 or > 100, "flow-aid-batch", "Write down the batch of the flow aid as its label says, in at most 100 characters.");
            return Add(scope, run, new Preparation
            {
                Id = scope.NewId(), RunId = run.Id, Kind = PreparationKind.FlowAid, StartedAt = scope.Now, EndedAt = scope.Now, Note = batch.Trim(),
                PersonId = scope.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal, EndedByName = scope.By.Name,
            });
        }, cancellation);

    private static int Minutes(MethodVersion method, PreparationKind kind) => kind switch
    {
        PreparationKind.Drying => method.Preparation.DryingMinutes ?? 0,
        PreparationKind.Conditioning => method.Preparation.ConditioningMinutes ?? 0,
        _ => 0,
    };

    private static DateTimeOffset Add(DeedScope scope, Run run, Preparation preparation)
    {
        scope.Data.Add(preparation);
        scope.Data.Entry(run).State = EntityState.Modified;
        return scope.Now;
    }

    private static void RequireNext(Run run, MethodVersion method, PreparationKind kind) =>
        Refuse(RunPlan.Next(run, method) != RunStep.Prepare(kind), "step-order", "This is not the run's next step. Look at the run anew: it may have gone on at another terminal.");

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

    private static void Refuse(bool when, string code, string words)
    {
        if (when)
        {
            throw new RefusedException(code, words, "preparation");
        }
    }
}

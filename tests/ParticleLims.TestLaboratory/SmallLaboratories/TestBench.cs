using System.Globalization;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>Somebody at the bench: starts runs, puts things on the pan, sieves and submits. On a clock that can be set the time of sieving passes at once.</summary>
public sealed class TestBench(SmallLaboratory laboratory, Actor actor)
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TimeProvider clock = laboratory.Get<TimeProvider>();

    /// <summary>A stable reading of so many grams.</summary>
    public static BalanceReading Reading(Guid balanceId, decimal grams, DateTimeOffset at, bool stable = true) =>
        new(balanceId, Mass.FromGrams(grams), 3, stable, string.Create(CultureInfo.InvariantCulture, $"{(stable ? "ST" : "US")} {grams:0.000} g"), at);

    /// <summary>What an empty sieve weighs here, in g: the same sieve always the same.</summary>
    public static decimal TareGrams(int position) => 250m + (10m * position) + 0.123m;

    /// <summary>A stable reading of the laboratory's balance, now.</summary>
    public BalanceReading Reading(decimal grams, bool stable = true) => Reading(laboratory.BalanceId, grams, clock.GetUtcNow(), stable);

    /// <summary>The run as the bench shows it.</summary>
    public async Task<RunView> ViewAsync(Guid runId) => (await laboratory.Get<RunReading>().FindAsync(actor, runId, None))!;

    /// <summary>Starts a planned run with the method's own sieves.</summary>
    public async Task StartAsync(Guid runId, TestMethod method)
    {
        var view = await ViewAsync(runId);
        await laboratory.Get<RunStart>().StartAsync(actor, runId, new RunEquipment(laboratory.BalanceId, method.SieveIds), view.Run.Version, null, null, None);
    }

    /// <summary>Does the next step; answers false when there was none left.</summary>
    public async Task<bool> StepAsync(Guid runId, Powder powder)
    {
        var view = await ViewAsync(runId);
        if (view.Next is not { } step)
        {
            return false;
        }

        switch (step.Kind)
        {
            case RunStepKind.Sieve:
                await SieveAsync(runId, step.Position, RunPlan.SecondsPlanned(view.Method, step), view.Method.PressureLowest is null ? null : Usual);
                break;
            case RunStepKind.Prepare:
                await PrepareAsync(runId, step.Preparation!.Value, view.Method.Preparation);
                break;
            default:
                await WeighAsync(runId, step, ExpectedGrams(view, step, powder));
                break;
        }

        return true;
    }

    /// <summary>Takes a weighing of a step.</summary>
    public Task<WeighingTaken> WeighAsync(Guid runId, RunStep step, decimal grams, string? key = null) =>
        laboratory.Get<RunWeighing>().TakeAsync(actor, runId, step, Reading(grams), key ?? NewKey(), None);

    /// <summary>Takes the standing weighing of a kind again.</summary>
    public async Task<WeighingTaken> WeighAgainAsync(Guid runId, WeighingKind kind, int position, decimal grams, string reason)
    {
        var mistaken = (await ViewAsync(runId)).Run.Find(kind, position)!;
        return await laboratory.Get<RunWeighing>().TakeAgainAsync(actor, runId, mistaken.Id, Reading(grams), reason, NewKey(), None);
    }

    /// <summary>Sieves for so many seconds.</summary>
    public async Task SieveAsync(Guid runId, int position, int seconds, PressureSeen? pressure = null)
    {
        var sieving = laboratory.Get<RunSieving>();
        await sieving.BeginAsync(actor, runId, position, NewKey(), None);
        await PassAsync(TimeSpan.FromSeconds(seconds));
        await sieving.EndAsync(actor, runId, position, pressure, NewKey(), None);
    }

    /// <summary>Does a preparation as the method asks.</summary>
    public async Task PrepareAsync(Guid runId, PreparationKind kind, PreparationPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var preparing = laboratory.Get<RunPreparing>();
        switch (kind)
        {
            case PreparationKind.RoomConditions:
                await preparing.ReadConditionsAsync(actor, runId, new RoomConditions(Temperature.FromCelsius(21.5m), 45m), NewKey(), None);
                break;
            case PreparationKind.FlowAid:
                await preparing.MixFlowAidAsync(actor, runId, "FA-1", NewKey(), None);
                break;
            default:
                await preparing.BeginAsync(actor, runId, kind, kind == PreparationKind.Drying ? plan.DryingTemperature : null, NewKey(), None);
                await PassAsync(TimeSpan.FromMinutes((kind == PreparationKind.Drying ? plan.DryingMinutes : plan.ConditioningMinutes) ?? 0));
                await preparing.EndAsync(actor, runId, kind, NewKey(), None);
                break;
        }
    }

    /// <summary>Scans a label.</summary>
    public Task<string> ScanAsync(Guid runId, string code) => laboratory.Get<RunScanning>().ScanAsync(actor, runId, code, NewKey(), None);

    /// <summary>Keeps what was seen on an empty sieve.</summary>
    public Task LookAsync(Guid runId, int position, string seen) => laboratory.Get<RunLooking>().LookAsync(actor, runId, position, seen, NewKey(), None);

    /// <summary>Does all steps that are left.</summary>
    public async Task FinishAsync(Guid runId, Powder powder)
    {
        while (await StepAsync(runId, powder))
        {
        }
    }

    /// <summary>Submits a finished run.</summary>
    public Task<bool> SubmitAsync(Guid runId) => laboratory.Get<RunSubmission>().SubmitAsync(actor, runId, NewKey(), None);

    /// <summary>Starts a run, does all its steps and submits it.</summary>
    public async Task CarryOutAsync(Guid runId, TestMethod method, Powder powder)
    {
        await StartAsync(runId, method);
        await FinishAsync(runId, powder);
        await SubmitAsync(runId);
    }

    /// <summary>What the balance shows at a step when nothing goes wrong, in g.</summary>
    public static decimal ExpectedGrams(RunView view, RunStep step, Powder powder)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(powder);
        var procedure = view.Method.Procedure;
        decimal Coarser(int position) => view.Run.Sieves.Find(sieve => sieve.Position == position) is { } sieve ? powder.ResidueGrams(sieve.Aperture) : 0m;
        return step.Weighing switch
        {
            WeighingKind.Empty => TareGrams(step.Position),
            WeighingKind.Loaded => TareGrams(step.Position) + (step.Position == 1 || procedure == SievingProcedure.SeparatePortions ? powder.PortionGrams : Coarser(step.Position - 1)),
            WeighingKind.After => TareGrams(step.Position) + Coarser(step.Position) - (procedure == SievingProcedure.NestedStack ? Coarser(step.Position + 1) : 0m),
            WeighingKind.ReceiverEmpty => 300m,
            WeighingKind.ReceiverAfter => 300m + powder.PortionGrams - Coarser(1),
            WeighingKind.CollectorEmpty => 180m,
            WeighingKind.CollectorAfter => 180m + view.Run.Sieves.Sum(sieve => (view.Run.Find(WeighingKind.Loaded, sieve.Position)!.Mass - view.Run.Find(WeighingKind.After, sieve.Position)!.Mass).Grams),
            WeighingKind.ContainerEmpty => 50m,
            WeighingKind.ContainerLoaded => 50m + powder.PortionGrams,
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, "Not a weighing."),
        };
    }

    private static PressureSeen Usual => new(Pressure.FromPascals(3100), Pressure.FromPascals(3300), Pressure.FromPascals(3600));

    private static string NewKey() => Guid.CreateVersion7().ToString();

    private Task PassAsync(TimeSpan time)
    {
        if (clock is FakeTimeProvider settable)
        {
            settable.Advance(time);
            return Task.CompletedTask;
        }

        return Task.Delay(time);
    }
}

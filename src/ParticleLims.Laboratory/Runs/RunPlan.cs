using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What a step asks for.</summary>
public enum RunStepKind
{
    Weigh,
    Sieve,
}

/// <summary>One step of the guided run.</summary>
/// <param name="Kind">Weigh or sieve.</param>
/// <param name="Weighing">For a weighing: what goes on the pan.</param>
/// <param name="Position">The sieve's position; 0 for container, receiver and the whole stack.</param>
public sealed record RunStep(RunStepKind Kind, WeighingKind? Weighing, int Position)
{
    /// <summary>A weighing step.</summary>
    public static RunStep Weigh(WeighingKind kind, int position) => new(RunStepKind.Weigh, kind, position);

    /// <summary>A sieving step.</summary>
    public static RunStep Sieve(int position) => new(RunStepKind.Sieve, null, position);
}

/// <summary>
/// The order of steps of each procedure, and where a run stands in it. All of it follows from what is on disk,
/// so a run goes on exactly where it was, on any terminal.
/// </summary>
public static class RunPlan
{
    /// <summary>All steps, in order.</summary>
    public static IReadOnlyList<RunStep> Steps(SievingProcedure procedure, int sieves) => procedure switch
    {
        SievingProcedure.SeparatePortions or SievingProcedure.CarriedResidue => [.. Enumerable.Range(1, sieves).SelectMany(OneSieve)],
        SievingProcedure.NestedStack => Stack(sieves),
        _ => throw new ArgumentOutOfRangeException(nameof(procedure), procedure, "Not a procedure."),
    };

    /// <summary>The first step that is not done; null when all are.</summary>
    public static RunStep? Next(Run run, MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(method);
        return Steps(method.Procedure, method.Sieves.Count).FirstOrDefault(step => !IsDone(run, step, method.Seconds));
    }

    /// <summary>Whether a step is done: its weighing stands, or its seconds are sieved.</summary>
    public static bool IsDone(Run run, RunStep step, int plannedSeconds)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(step);
        return step.Kind == RunStepKind.Weigh
            ? run.Find(step.Weighing!.Value, step.Position) is not null
            : SecondsSieved(run, step.Position) >= plannedSeconds && !run.Intervals.Any(interval => interval.Position == step.Position && interval.EndedAt is null);
    }

    /// <summary>The seconds sieved at a position; intervals add up.</summary>
    public static int SecondsSieved(Run run, int position)
    {
        ArgumentNullException.ThrowIfNull(run);
        return run.Intervals.Where(interval => interval.Position == position && interval.EndedAt is not null).Sum(interval => interval.Seconds);
    }

    /// <summary>
    /// Whether a weighing can still be taken again: the powder lies as it lay then. A returned run is corrected at the desk's word,
    /// so there each weighing may be taken again.
    /// </summary>
    public static bool MayWeighAgain(Run run, MethodVersion method, Weighing weighing)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(weighing);
        if (run.State == RunState.Returned)
        {
            return true;
        }

        var steps = Steps(method.Procedure, method.Sieves.Count);
        var index = steps.ToList().IndexOf(RunStep.Weigh(weighing.Kind, weighing.Position));
        return !steps.Skip(index + 1).Any(step => EndsState(step, weighing) && IsBegun(run, step));
    }

    private static bool EndsState(RunStep step, Weighing weighing) => weighing.Kind switch
    {
        WeighingKind.Empty => step == RunStep.Weigh(WeighingKind.Loaded, weighing.Position) || step == RunStep.Sieve(0),
        WeighingKind.Loaded => step == RunStep.Sieve(weighing.Position),
        WeighingKind.After => step.Kind == RunStepKind.Weigh && step.Weighing == WeighingKind.Loaded && step.Position == weighing.Position + 1,
        WeighingKind.ContainerEmpty => step.Weighing == WeighingKind.ContainerLoaded,
        WeighingKind.ContainerLoaded or WeighingKind.ReceiverEmpty => step == RunStep.Sieve(0),
        _ => false,
    };

    private static bool IsBegun(Run run, RunStep step) => step.Kind == RunStepKind.Weigh
        ? run.Find(step.Weighing!.Value, step.Position) is not null
        : run.Intervals.Any(interval => interval.Position == step.Position);

    private static IEnumerable<RunStep> OneSieve(int position) =>
        [RunStep.Weigh(WeighingKind.Empty, position), RunStep.Weigh(WeighingKind.Loaded, position), RunStep.Sieve(position), RunStep.Weigh(WeighingKind.After, position)];

    private static IReadOnlyList<RunStep> Stack(int sieves) =>
    [
        .. Enumerable.Range(1, sieves).Select(position => RunStep.Weigh(WeighingKind.Empty, position)),
        RunStep.Weigh(WeighingKind.ReceiverEmpty, 0), RunStep.Weigh(WeighingKind.ContainerEmpty, 0), RunStep.Weigh(WeighingKind.ContainerLoaded, 0), RunStep.Sieve(0),
        .. Enumerable.Range(1, sieves).Reverse().Select(position => RunStep.Weigh(WeighingKind.After, position)), RunStep.Weigh(WeighingKind.ReceiverAfter, 0),
    ];
}

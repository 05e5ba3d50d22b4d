using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Laboratory.Runs;

/// <summary>
/// The order of steps of each method, and where a run stands in it. All of it follows from what is on disk,
/// so a run goes on exactly where it was, on any terminal.
/// </summary>
public static class RunPlan
{
    /// <summary>All steps, in order, as they are known before the first; an end point has its first further interval.</summary>
    public static IReadOnlyList<RunStep> Steps(MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(method);
        return Steps(method, run: null);
    }

    /// <summary>All steps, in order, as far as the run shows them: each residue that still changes brings another interval.</summary>
    public static IReadOnlyList<RunStep> Steps(Run run, MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(method);
        return Steps(method, run);
    }

    /// <summary>The first step that is not done; null when all are.</summary>
    public static RunStep? Next(Run run, MethodVersion method) => Steps(run, method).FirstOrDefault(step => !IsDone(run, step, method));

    /// <summary>Whether a step is done: its weighing stands, its seconds are sieved, its preparation has ended.</summary>
    public static bool IsDone(Run run, RunStep step, MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(method);
        return step.Kind switch
        {
            RunStepKind.Weigh => run.Find(step.Weighing!.Value, step.Position, step.Round) is not null,
            RunStepKind.Sieve => SecondsSieved(run, step) >= SecondsPlanned(method, step) && !run.Intervals.Any(interval => step.Holds(interval) && interval.EndedAt is null),
            RunStepKind.Prepare => run.Preparations.Exists(one => one.Kind == step.Preparation && one.EndedAt is not null),
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, "Not a step."),
        };
    }

    /// <summary>The seconds sieved in a step; stretches add up.</summary>
    public static int SecondsSieved(Run run, RunStep step)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(step);
        return run.Intervals.Where(interval => step.Holds(interval) && interval.EndedAt is not null).Sum(interval => interval.Seconds);
    }

    /// <summary>The seconds that a sieving step asks for.</summary>
    public static int SecondsPlanned(MethodVersion method, RunStep step)
    {
        ArgumentNullException.ThrowIfNull(method);
        ArgumentNullException.ThrowIfNull(step);
        return step.Round == 0 ? method.Seconds : method.EndPoint!.IntervalSeconds;
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

        var steps = Steps(run, method);
        var index = steps.ToList().IndexOf(RunStep.Of(weighing));
        return !steps.Skip(index + 1).Any(step => EndsState(step, weighing) && IsBegun(run, step));
    }

    private static bool EndsState(RunStep step, Weighing weighing) => weighing.Kind switch
    {
        WeighingKind.Empty => step == RunStep.Weigh(WeighingKind.Loaded, weighing.Position) || step == RunStep.Sieve(0),
        WeighingKind.Loaded => step == RunStep.Sieve(weighing.Position),
        WeighingKind.After => (step.Kind == RunStepKind.Weigh && step.Weighing == WeighingKind.Loaded && step.Position == weighing.Position + 1) || SievesOn(step, weighing),
        WeighingKind.ReceiverAfter => SievesOn(step, weighing),
        WeighingKind.ContainerEmpty => step.Weighing == WeighingKind.ContainerLoaded,
        WeighingKind.ContainerLoaded or WeighingKind.ReceiverEmpty => step == RunStep.Sieve(0),
        WeighingKind.CollectorEmpty => step.Kind == RunStepKind.Sieve,
        _ => false,
    };

    private static bool SievesOn(RunStep step, Weighing weighing) =>
        step.Kind == RunStepKind.Sieve && step.Round == weighing.Round + 1 && (step.Position == 0 || step.Position == weighing.Position);

    private static bool IsBegun(Run run, RunStep step) => step.Kind == RunStepKind.Weigh
        ? run.Find(step.Weighing!.Value, step.Position, step.Round) is not null
        : run.Intervals.Any(step.Holds);

    private static IReadOnlyList<RunStep> Steps(MethodVersion method, Run? run)
    {
        IEnumerable<RunStep> sieves = method.Procedure switch
        {
            SievingProcedure.SeparatePortions or SievingProcedure.CarriedResidue => Enumerable.Range(1, method.Sieves.Count).SelectMany(position => OneSieve(method, run, position)),
            SievingProcedure.NestedStack => Stack(method, run),
            _ => throw new ArgumentOutOfRangeException(nameof(method), method.Procedure, "Not a procedure."),
        };
        return [.. Before(method.Preparation), .. Collector(method, WeighingKind.CollectorEmpty), .. sieves, .. Collector(method, WeighingKind.CollectorAfter)];
    }

    private static IEnumerable<RunStep> Before(PreparationPlan plan) =>
    [
        .. When(plan.ConditionsRead, RunStep.Prepare(PreparationKind.RoomConditions)),
        .. When(plan.DryingMinutes is not null, RunStep.Prepare(PreparationKind.Drying)),
        .. When(plan.ConditioningMinutes is not null, RunStep.Prepare(PreparationKind.Conditioning)),
        .. When(plan.FlowAid is not null, RunStep.Prepare(PreparationKind.FlowAid)),
    ];

    private static RunStep[] Collector(MethodVersion method, WeighingKind kind) => When(method.CollectorWeighed, RunStep.Weigh(kind, 0));

    private static RunStep[] When(bool asked, RunStep step) => asked ? [step] : [];

    private static IEnumerable<RunStep> OneSieve(MethodVersion method, Run? run, int position) =>
    [
        RunStep.Weigh(WeighingKind.Empty, position), RunStep.Weigh(WeighingKind.Loaded, position),
        .. Rounds(method, run, position).SelectMany(round => (RunStep[])[RunStep.Sieve(position, round), RunStep.Weigh(WeighingKind.After, position, round)]),
    ];

    private static IEnumerable<RunStep> Stack(MethodVersion method, Run? run)
    {
        var positions = Enumerable.Range(1, method.Sieves.Count).ToList();
        return
        [
            .. positions.Select(position => RunStep.Weigh(WeighingKind.Empty, position)),
            RunStep.Weigh(WeighingKind.ReceiverEmpty, 0), RunStep.Weigh(WeighingKind.ContainerEmpty, 0), RunStep.Weigh(WeighingKind.ContainerLoaded, 0),
            .. Rounds(method, run, 0).SelectMany(round => (RunStep[])
            [
                RunStep.Sieve(0, round), .. positions.AsEnumerable().Reverse().Select(position => RunStep.Weigh(WeighingKind.After, position, round)), RunStep.Weigh(WeighingKind.ReceiverAfter, 0, round),
            ]),
        ];
    }

    // The method's own time, then as many further intervals as the end point asks for.
    private static IEnumerable<int> Rounds(MethodVersion method, Run? run, int position)
    {
        yield return 0;
        if (method.EndPoint is not { } plan)
        {
            yield break;
        }

        for (var round = 1; round <= plan.MostIntervals; round++)
        {
            yield return round;
            if (run is null || EndPoint.After(run, method, position, round) is not { IsReached: false })
            {
                yield break;
            }
        }
    }
}

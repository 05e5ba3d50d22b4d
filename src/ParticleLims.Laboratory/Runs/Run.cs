using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>The state of a run.</summary>
public enum RunState
{
    Planned,
    InProgress,
    Submitted,
    Returned,
    Accepted,
    Invalidated,
    Abandoned,
}

/// <summary>One determination on one sample by one method.</summary>
public sealed class Run : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>For example <c>R-26-00123</c>.</summary>
    public required string Number { get; init; }
    public Guid SampleId { get; init; }
    public required string SampleCode { get; init; }
    public Guid LotId { get; init; }
    public required string LotNumber { get; init; }
    public Guid ProductId { get; init; }
    public required string ProductCode { get; init; }
    public Guid MethodVersionId { get; init; }
    public Guid SpecificationVersionId { get; init; }

    /// <summary>1 to the method's number of replicates.</summary>
    public int Replicate { get; init; }

    /// <summary>The run that this one takes the place of.</summary>
    public Guid? ReplacesRunId { get; init; }

    /// <summary>The approved plan by which it is made again for an investigation; null for what makes up the sample's result. A retest stands beside the result and never in it.</summary>
    public Guid? RetestPlanId { get; init; }

    /// <summary>Whether somebody makes it who took no part in the run that is investigated.</summary>
    public bool ByAnotherPerson { get; init; }
    public RunState State { get; private set; } = RunState.Planned;
    public Guid? BalanceId { get; private set; }

    /// <summary>The sieving unit; null where none was named.</summary>
    public Guid? SievingUnitId { get; private set; }

    /// <summary>What made the balance fit for use when the run started, as shown then; null before.</summary>
    public string? BalanceThen { get; private set; }

    /// <summary>The smallest net mass that the balance weighed well enough then; null before.</summary>
    public Mass? BalanceMinimum { get; private set; }

    /// <summary>Whether a weighing came from the balance on a day on which it had not passed its check.</summary>
    public bool BalanceUnchecked { get; private set; }

    /// <summary>What made the sieving unit fit for use when the run started; null where none was named.</summary>
    public string? SievingUnitThen { get; private set; }
    public DateTimeOffset PlannedAt { get; init; }
    public DateTimeOffset? StartedAt { get; private set; }
    public Guid? StartedById { get; private set; }
    public string? StartedByName { get; private set; }
    public DateTimeOffset? SubmittedAt { get; private set; }
    public Guid? SubmittedById { get; private set; }
    public string? SubmittedByName { get; private set; }

    /// <summary>The evaluation made at the last submission.</summary>
    public Guid? EvaluationId { get; private set; }

    /// <summary>How many findings the reviewer has to look at.</summary>
    public int Findings { get; private set; }

    /// <summary>The findings in words, a line each, for lists; null where there is none.</summary>
    public string? FindingsInWords { get; private set; }

    /// <summary>Why it was returned, invalidated or abandoned.</summary>
    public string? StateReason { get; private set; }

    /// <summary>The cause for which a reviewer wants it invalidated, while the quality manager's signature is awaited; else null.</summary>
    public string? InvalidationProposed { get; private set; }
    public Guid? InvalidationProposedById { get; private set; }
    public List<RunSieve> Sieves { get; } = [];
    public List<Weighing> Weighings { get; } = [];
    public List<SievingInterval> Intervals { get; } = [];
    public List<Preparation> Preparations { get; } = [];
    public List<SieveScan> Scans { get; } = [];

    /// <summary>Sieves with an unusual empty mass that were looked at.</summary>
    public List<SieveLook> Looks { get; } = [];

    /// <summary>Who started it or took it over, where the method asks for an authorisation.</summary>
    public List<RunOperator> Operators { get; } = [];
    public long Version { get; set; }

    /// <summary>Which of several it is: "replicate 2", "retest 1".</summary>
    public string Place => PlaceOf(Replicate, RetestPlanId is not null);

    /// <summary>For people: "R-26-00123 (lot 4711, replicate 1)".</summary>
    public string Label => $"{Number} (lot {LotNumber}, {Place})";

    /// <summary>Whether it may still count in a result.</summary>
    public bool Counts => State is not (RunState.Invalidated or RunState.Abandoned);

    /// <summary>The weighings that stand: those that no later one supersedes.</summary>
    public IEnumerable<Weighing> StandingWeighings
    {
        get
        {
            var superseded = Weighings.Select(weighing => weighing.SupersedesId).OfType<Guid>().ToHashSet();
            return Weighings.Where(weighing => !superseded.Contains(weighing.Id));
        }
    }

    /// <summary>The standing weighing of a kind at a position, after the last further interval; null while it has not been taken.</summary>
    public Weighing? Find(WeighingKind kind, int position) => StandingWeighings.Where(weighing => weighing.Kind == kind && weighing.Position == position).MaxBy(weighing => weighing.Round);

    /// <summary>The standing weighing of a kind at a position after one further interval; null while it has not been taken.</summary>
    public Weighing? Find(WeighingKind kind, int position, int round) =>
        StandingWeighings.FirstOrDefault(weighing => weighing.Kind == kind && weighing.Position == position && weighing.Round == round);

    /// <summary>Whether the label of a sieve was scanned at a place.</summary>
    public bool IsScanned(int position, ScanPlace place) => Scans.Exists(scan => scan.Position == position && scan.Place == place);

    /// <summary>Whether somebody looked at a sieve whose empty mass is unusual.</summary>
    public bool IsLookedAt(int position) => Looks.Exists(look => look.Position == position);

    /// <summary>What lies on a sieve after the last further interval; null while it has not been weighed.</summary>
    public Mass? Residue(int position) => Find(WeighingKind.After, position) is { } after && Find(WeighingKind.Empty, position) is { } empty ? after.Mass - empty.Mass : null;

    /// <summary>A technician takes the run up with one balance and perhaps a named sieving unit.</summary>
    internal void Start(DeedScope scope, (Guid Id, string Snapshot, Mass Minimum) balance, (Guid Id, string Snapshot)? sievingUnit)
    {
        Require(RunState.Planned);
        (State, StartedAt, StartedById, StartedByName) = (RunState.InProgress, scope.Now, scope.PersonId, scope.By.Name);
        (BalanceId, BalanceThen, BalanceMinimum) = (balance.Id, balance.Snapshot, balance.Minimum);
        (SievingUnitId, SievingUnitThen) = (sievingUnit?.Id, sievingUnit?.Snapshot);
    }

    /// <summary>A weighing comes from a balance that has not passed its check on this day.</summary>
    internal void WeighUnchecked() => BalanceUnchecked = true;

    /// <summary>Refuses unless weighing and sieving go on.</summary>
    public void RequireGoingOn() => Require(RunState.InProgress, RunState.Returned);

    /// <summary>All weighings are in and evaluated.</summary>
    public void Submit(DeedScope scope, Guid evaluationId, IReadOnlyCollection<string> findings)
    {
        ArgumentNullException.ThrowIfNull(scope);
        ArgumentNullException.ThrowIfNull(findings);
        RequireGoingOn();
        (State, SubmittedAt, SubmittedById, SubmittedByName) = (RunState.Submitted, scope.Now, scope.PersonId, scope.By.Name);
        (EvaluationId, Findings, FindingsInWords) = (evaluationId, findings.Count, findings.Count == 0 ? null : string.Join('\n', findings));
    }

    /// <summary>The reviewer accepts.</summary>
    public void Accept()
    {
        Require(RunState.Submitted);
        RequireNotProposed();
        State = RunState.Accepted;
    }

    /// <summary>The reviewer hands it back; it goes on.</summary>
    public void Return(string reason)
    {
        Require(RunState.Submitted);
        RequireNotProposed();
        (State, StateReason) = (RunState.Returned, reason);
    }

    /// <summary>An assignable cause was found: it counts in nothing and stays readable.</summary>
    public void Invalidate(string cause)
    {
        Require(RunState.Submitted, RunState.Accepted);
        (State, StateReason) = (RunState.Invalidated, cause);
        (InvalidationProposed, InvalidationProposedById) = (null, null);
    }

    /// <summary>A reviewer found a cause; the quality manager's signature is still to come.</summary>
    internal void ProposeInvalidation(Guid personId, string cause)
    {
        Require(RunState.Submitted, RunState.Accepted);
        RequireNotProposed();
        (InvalidationProposed, InvalidationProposedById) = (cause, personId);
    }

    /// <summary>The quality manager does not agree: the run stays as it is.</summary>
    internal void DeclineInvalidation()
    {
        RequireProposed();
        (InvalidationProposed, InvalidationProposedById) = (null, null);
    }

    /// <summary>Refuses where nobody wants it invalidated.</summary>
    internal void RequireProposed()
    {
        if (InvalidationProposed is null)
        {
            throw new RefusedException("invalidation-not-proposed", $"Nobody has proposed to invalidate run {Number}.");
        }
    }

    private void RequireNotProposed()
    {
        if (InvalidationProposed is not null)
        {
            throw new RefusedException("invalidation-proposed", $"To invalidate run {Number} is proposed already ({InvalidationProposed}). The quality manager signs or declines first.");
        }
    }

    /// <summary>Given up with a reason; it stays in the lot's history.</summary>
    public void Abandon(string reason)
    {
        Require(RunState.Planned, RunState.InProgress, RunState.Returned);
        (State, StateReason) = (RunState.Abandoned, reason);
    }

    /// <summary>The place in words.</summary>
    internal static string PlaceOf(int number, bool isRetest) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{(isRetest ? "retest" : "replicate")} {number}");

    /// <summary>The run that takes the place of this one.</summary>
    internal Run Replacement(DeedScope scope, string number) => new()
    {
        Id = scope.NewId(), Number = number, SampleId = SampleId, SampleCode = SampleCode, LotId = LotId, LotNumber = LotNumber, ProductId = ProductId, ProductCode = ProductCode,
        MethodVersionId = MethodVersionId, SpecificationVersionId = SpecificationVersionId, Replicate = Replicate, ReplacesRunId = Id, PlannedAt = scope.Now,
        RetestPlanId = RetestPlanId, ByAnotherPerson = ByAnotherPerson,
    };

    /// <summary>A further determination of the same sample by an approved plan.</summary>
    internal Run Retest(DeedScope scope, string number, Guid planId, int place, bool otherPerson) => new()
    {
        Id = scope.NewId(), Number = number, SampleId = SampleId, SampleCode = SampleCode, LotId = LotId, LotNumber = LotNumber, ProductId = ProductId, ProductCode = ProductCode,
        MethodVersionId = MethodVersionId, SpecificationVersionId = SpecificationVersionId, Replicate = place, PlannedAt = scope.Now, RetestPlanId = planId, ByAnotherPerson = otherPerson,
    };

    private void Require(params RunState[] states)
    {
        if (!states.Contains(State))
        {
            throw new RefusedException("run-state", $"Run {Number} is {State.Words()}; this cannot be done with it now.");
        }
    }
}

/// <summary>An individual sieve in its place in a run, the finest first.</summary>
public sealed class RunSieve
{
    public Guid RunId { get; init; }

    /// <summary>1 is the finest.</summary>
    public int Position { get; init; }
    public Aperture Aperture { get; init; }
    public Guid SieveId { get; init; }
    public required string SieveSerial { get; init; }

    /// <summary>Frame diameter in whole millimetres.</summary>
    public int FrameMillimetres { get; init; }

    /// <summary>What made it fit for use when the run started: state, inspection due, as shown then.</summary>
    public required string FitnessThen { get; init; }

    /// <summary>The effective aperture of its last passed check with a reference material then; null where there was none.</summary>
    public Aperture? EffectiveAperture { get; init; }

    /// <summary>The standard uncertainty of that.</summary>
    public Aperture? EffectiveUncertainty { get; init; }

    /// <summary>How far its mean aperture may be from nominal by the laboratory's own table of its edition then; null where no such table says so and the program's formula counts.</summary>
    public Aperture? MeanDeviation { get; init; }
}

/// <summary>Run states in words.</summary>
public static class RunStateWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this RunState state) => state switch
    {
        RunState.Planned => "planned",
        RunState.InProgress => "in progress",
        RunState.Submitted => "submitted",
        RunState.Returned => "returned",
        RunState.Accepted => "accepted",
        RunState.Invalidated => "invalidated",
        RunState.Abandoned => "abandoned",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };
}

using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>
/// The laboratory as its rules describe it, without a database: states of lots, samples, runs, cases and versions, and who did what. Written from the job's description and not from the services,
/// so that the two can be compared. Runs, samples and cases are numbered from 1 in the order in which they came to be, as the laboratory numbers them.
/// </summary>
internal sealed class ModelLaboratory
{
    /// <summary>Steps of the walked method: weigh empty, weigh loaded, sieve, weigh the residue.</summary>
    public const int StepsOfARun = 4;

    /// <summary>Who there is, in the order of <see cref="Hand.Persons"/>: the third holds four roles at once.</summary>
    public static IReadOnlyList<Who> Persons { get; } = [Who.Technician, Who.Reviewer, Who.Staff, Who.QualityManager, Who.LaboratoryManager, Who.Administrator, Who.Customer, Who.NotSignedOn];

    /// <summary>One person may do everything.</summary>
    public bool Alone { get; init; }

    public List<ModelLot> Lots { get; } = [];

    public List<ModelSample> Samples { get; } = [];

    public List<ModelRun> Runs { get; } = [];

    public List<ModelCase> Cases { get; } = [];

    public List<ModelVersion> Versions { get; } = [];

    /// <summary>What a new sample's runs are called for.</summary>
    public ModelVersion InForce(int document) => Versions.Last(version => version.Document == document && version.State == DocumentState.InForce);

    public ModelRun Plan(ModelSample sample, ModelRun? replaces = null, ModelPlan? retest = null)
    {
        var run = new ModelRun { Number = Runs.Count + 1, Sample = sample, Replaces = replaces, Retest = retest };
        Runs.Add(run);
        return run;
    }

    public IEnumerable<ModelRun> RunsOf(ModelLot lot) => Runs.Where(run => run.Sample.Lot == lot);

    public IEnumerable<ModelCase> CasesOf(ModelLot lot) => Cases.Where(one => one.Run.Sample.Lot == lot);

    public IEnumerable<ModelCase> CasesOf(ModelSample sample) => Cases.Where(one => one.Run.Sample == sample);

    public bool IsInvestigated(ModelSample sample) => CasesOf(sample).Any(one => one.State != InvestigationState.Closed);

    /// <summary>Runs that make up the results of a lot: retests stand beside them, invalidated and abandoned ones count in nothing.</summary>
    public List<ModelRun> Counting(ModelLot lot) => [.. RunsOf(lot).Where(run => run.Retest is null && run.State is not (RunState.Invalidated or RunState.Abandoned))];

    public bool ResultsAreIn(ModelLot lot) => Counting(lot) is { Count: > 0 } counting && counting.TrueForAll(run => run.State == RunState.Accepted);

    /// <summary>Whether somebody worked at or reviewed any run of a lot.</summary>
    public bool TookPart(ModelLot lot, int person) => RunsOf(lot).Any(run => run.Workers.Contains(person) || run.Reviewers.Contains(person));

    /// <summary>Invalidates a run: it counts in nothing, its lot awaits results, and a new one is planned unless a new sample stands in for the old one.</summary>
    public void Invalidate(ModelRun run)
    {
        (run.State, run.ProposedBy) = (RunState.Invalidated, null);
        var lot = run.Sample.Lot;
        if (lot.State == LotState.AwaitingDisposition)
        {
            lot.State = LotState.AwaitingResults;
        }

        if (!Samples.Exists(sample => sample.Replaces == run.Sample))
        {
            Plan(run.Sample, run, run.Retest);
        }
        else if (lot.State == LotState.AwaitingResults && ResultsAreIn(lot))
        {
            lot.State = LotState.AwaitingDisposition;
        }
    }

    /// <summary>Every state, a line each: what the database is compared with.</summary>
    public IEnumerable<string> States()
    {
        foreach (var lot in Lots)
        {
            yield return $"lot {lot.Number}: {lot.State}";
        }

        foreach (var run in Runs)
        {
            yield return $"run {run.Number} of sample {run.Sample.Number} of lot {run.Sample.Lot.Number}: {run.State}{(run.ProposedBy is null ? string.Empty : ", to be invalidated")}{(run.Replaces is { } before ? $", replaces {before.Number}" : string.Empty)}{(run.Retest is null ? string.Empty : ", retest")}";
        }

        foreach (var sample in Samples)
        {
            yield return $"sample {sample.Number}: method version {sample.MethodVersion.Number}, specification version {sample.SpecificationVersion.Number}{(sample.Replaces is { } before ? $", replaces {before.Number}" : string.Empty)}";
        }

        foreach (var one in Cases)
        {
            yield return $"case {one.Number} of run {one.Run.Number}: {one.State} {one.Conclusion}; plans {string.Join(", ", one.Plans.Select(plan => plan.State))}";
        }

        foreach (var version in Versions)
        {
            yield return $"document {version.Document} version {version.Number}: {version.State}";
        }
    }
}

internal sealed class ModelLot
{
    public required string Number { get; init; }
    public LotState State { get; set; }

    /// <summary>Held by the quality manager's own signature, or opened again: no investigation lifts that.</summary>
    public bool HeldBesides { get; set; }

    /// <summary>The sample in whose place one new one may be taken.</summary>
    public ModelSample? MayReplace { get; set; }

    /// <summary>Who proposed the concession that waits; the decision uses it up.</summary>
    public int? ConcessionBy { get; set; }
    public int? ReopeningBy { get; set; }

    /// <summary>What of it has not been reworked yet; no more can come out of it.</summary>
    public decimal KilogramsLeft { get; set; } = LotDeeds.Kilograms;
    public bool IsDecided => State is LotState.Released or LotState.Rejected or LotState.ReleasedByConcession;

    public void Decide(LotState decision) => (State, ConcessionBy, ReopeningBy) = (decision, decision == LotState.OnHold ? ConcessionBy : null, null);
}

internal sealed class ModelSample
{
    public int Number { get; init; }
    public required ModelLot Lot { get; init; }
    public required ModelVersion MethodVersion { get; init; }
    public required ModelVersion SpecificationVersion { get; init; }
    public ModelSample? Replaces { get; init; }
}

internal sealed class ModelRun
{
    public int Number { get; init; }
    public required ModelSample Sample { get; init; }
    public ModelRun? Replaces { get; init; }
    public ModelPlan? Retest { get; init; }
    public RunState State { get; set; } = RunState.Planned;
    public int Steps { get; set; }

    /// <summary>Whether the residue that was weighed last is too much.</summary>
    public bool Coarse { get; set; }

    /// <summary>Whether the result that was submitted last is out of specification.</summary>
    public bool Out { get; set; }
    public bool WasSubmitted { get; set; }
    public int? ProposedBy { get; set; }
    public HashSet<int> Workers { get; } = [];
    public HashSet<int> Reviewers { get; } = [];
    public bool GoesOn => State is RunState.InProgress or RunState.Returned;
}

internal sealed class ModelCase
{
    public int Number { get; init; }
    public required ModelRun Run { get; init; }
    public InvestigationState State { get; set; } = InvestigationState.LaboratoryPhase;
    public InvestigationConclusion? Conclusion { get; set; }
    public bool Answered { get; set; }
    public bool CauseFound { get; set; }
    public bool OtherLotsSaid { get; set; }

    /// <summary>The runs there were when it was concluded: of later ones it says nothing.</summary>
    public int RunsThen { get; set; }
    public List<ModelPlan> Plans { get; } = [];
}

internal sealed class ModelPlan
{
    public RetestPlanState State { get; set; } = RetestPlanState.Proposed;
    public int Count { get; init; }
    public int ProposedBy { get; init; }
    public bool BySamePerson { get; init; }
}

internal sealed class ModelVersion
{
    /// <summary>0 for the method, 1 for the specification.</summary>
    public int Document { get; init; }
    public int Number { get; init; }
    public int Author { get; init; }
    public DocumentState State { get; set; } = DocumentState.Draft;
}

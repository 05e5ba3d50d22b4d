using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Does in a small laboratory what a walk says, and tells the states that its database then shows.</summary>
internal sealed class Hand : IAsyncDisposable
{
    private static readonly TestPerson Nobody = new(Guid.CreateVersion7(), "nobody", "Nobody", string.Empty);
    private readonly OpenedSmallLaboratory laboratory;
    private Found found = new([], [], [], [], [], []);

    private Hand(OpenedSmallLaboratory laboratory, TestMethod method)
    {
        (this.laboratory, Method) = (laboratory, method);
        var people = laboratory.Small.People;
        Persons = [people.Technician, people.Reviewer, people.SecondTechnician, people.QualityManager, people.LaboratoryManager, people.Administrator, people.Customer, Nobody];
    }

    public SmallLaboratory Small => laboratory.Small;

    /// <summary>Pea starch on one sieve of 63 µm: four steps make a run.</summary>
    public TestMethod Method { get; }

    public DateOnly Yesterday => DateOnly.FromDateTime(laboratory.Running.Clock.GetUtcNow().UtcDateTime.AddDays(-1));

    /// <summary>In the order of <see cref="ModelLaboratory.Persons"/>.</summary>
    private IReadOnlyList<TestPerson> Persons { get; }

    /// <summary>A laboratory in which nothing was booked in, and its model.</summary>
    public static async Task<(Hand Hand, ModelLaboratory Model)> OpenAsync(DatabaseKind kind, bool alone)
    {
        var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = opened.Small;
        var one = await small.WithMethodAsync(small.Starch, draft => draft with { Apertures = [Aperture.FromMicrometres(63m)], Replicates = 1, RepeatabilityLimitPercent = null });
        await small.GiveRolesAsync(small.People.SecondTechnician, Role.Technician, Role.Reviewer, Role.QualityManager, Role.LaboratoryManager);
        if (alone)
        {
            await small.SwitchOnePersonAsync();
        }

        const int manager = 4;
        var model = new ModelLaboratory { Alone = alone };
        model.Versions.AddRange(
        [
            new ModelVersion { Document = 0, Number = 1, Author = manager, State = DocumentState.Superseded },
            new ModelVersion { Document = 0, Number = 2, Author = manager, State = DocumentState.InForce },
            new ModelVersion { Document = 1, Number = 1, Author = manager, State = DocumentState.InForce },
        ]);
        return (new Hand(opened, one with { SieveIds = [one.SieveIds[^1]] }), model);
    }

    public T Get<T>()
        where T : notnull => laboratory.Get<T>();

    public Actor Of(Moment at) => Persons[at.Person].Actor;

    public Row Run(Moment at) => found.Runs[at.Run.Number];

    public Row Case(Moment at) => found.Cases[at.Case.Number];

    public Row Plan(Moment at) => found.Plans[at.Case.Number];

    public Row Version(Moment at) => found.Versions[(at.Version.Document, at.Version.Number)];

    public Guid Lot(Moment at) => found.Lots[at.Lot.Number];

    /// <summary>The number of the next lot.</summary>
    public static string NumberOfNext(ModelLaboratory model) => FormattableString.Invariant($"W-{model.Lots.Count + 1}");

    public static string NewKey() => Guid.CreateVersion7().ToString();

    public void Pass(TimeSpan time) => laboratory.Running.Clock.Advance(time);

    public BalanceReading Reading(decimal grams) => Small.Bench().Reading(grams);

    /// <summary>The password given again; who has none borrows another's, which helps nobody.</summary>
    public Task<SecretProof> ProofAsync(Moment at) => Small.ProofAsync(Persons[at.Person] == Nobody ? Small.People.Administrator : Persons[at.Person]);

    /// <summary>What the decision page shows.</summary>
    public async Task<string> ShownAsync(Moment at) => (await Get<LotDecision>().ReadAsync(Small.People.QualityManager.Actor, Lot(at), default))!.ContentHash;

    /// <summary>The weighing of the residue that stands.</summary>
    public async Task<Guid> ResidueAsync(Moment at) => (await Small.Bench().ViewAsync(Run(at).Id)).Run.Find(WeighingKind.After, 1)!.Id;

    public NewSample NewSample(Moment at, ModelVersion method, ModelVersion specification) => Small.NewSample(
        Lot(at), Method with { MethodVersionId = found.Versions[(0, method.Number)].Id, SpecificationVersionId = found.Versions[(1, specification.Number)].Id });

    /// <summary>Rows and versions of every table, the record's among them.</summary>
    public Task<string> SumAsync() => Untouched.SumAsync(laboratory);

    /// <summary>Reads every state, a line each as the model tells it, and remembers where everything stands.</summary>
    public async Task<List<string>> StatesAsync()
    {
        await using var data = laboratory.Data();
        var lots = await data.Lots.AsNoTracking().OrderBy(lot => lot.Number).Select(lot => new { lot.Id, lot.Number, lot.State }).ToListAsync();
        var runs = await data.Runs.AsNoTracking().OrderBy(run => run.Number).Select(run => new { run.Id, run.Number, run.Version, run.SampleCode, run.LotNumber, run.State, run.InvalidationProposed, run.ReplacesRunId, run.RetestPlanId }).ToListAsync();
        var samples = await data.Samples.AsNoTracking().OrderBy(sample => sample.Code).Select(sample => new { sample.Id, sample.Code, sample.MethodVersionId, sample.SpecificationVersionId, sample.ReplacesSampleId }).ToListAsync();
        var cases = await data.Investigations.AsNoTracking().OrderBy(one => one.Number).Select(one => new { one.Id, one.Number, one.Version, one.RunNumber, one.State, one.Conclusion }).ToListAsync();
        var plans = await data.Set<RetestPlan>().AsNoTracking().OrderBy(plan => plan.ProposedAt).Select(plan => new { plan.Id, plan.Version, plan.InvestigationId, plan.State }).ToListAsync();
        var methods = await data.MethodVersions.AsNoTracking().Where(version => version.DocumentId == Method.MethodId).Select(version => new { version.Id, version.Number, version.Version, version.State, Document = 0 }).ToListAsync();
        var specifications = await data.SpecificationVersions.AsNoTracking().Where(version => version.DocumentId == Method.SpecificationId).Select(version => new { version.Id, version.Number, version.Version, version.State, Document = 1 }).ToListAsync();
        var versions = methods.Concat(specifications).ToList();
        found = new Found(
            runs.ToDictionary(run => NumberIn(run.Number), run => new Row(run.Id, run.Version)), lots.ToDictionary(lot => lot.Number, lot => lot.Id, StringComparer.Ordinal),
            cases.ToDictionary(one => NumberIn(one.Number), one => new Row(one.Id, one.Version)),
            plans.GroupBy(plan => plan.InvestigationId).ToDictionary(group => NumberIn(cases.Single(one => one.Id == group.Key).Number), group => new Row(group.Last().Id, group.Last().Version)),
            versions.ToDictionary(version => (version.Document, version.Number), version => new Row(version.Id, version.Version)), samples.ToDictionary(sample => sample.Id, sample => NumberIn(sample.Code)));
        int VersionIn(Guid id) => versions.Single(version => version.Id == id).Number;
        return
        [
            .. lots.Select(lot => $"lot {lot.Number}: {lot.State}"),
            .. runs.Select(run => $"run {NumberIn(run.Number)} of sample {NumberIn(run.SampleCode)} of lot {run.LotNumber}: {run.State}{(run.InvalidationProposed is null ? string.Empty : ", to be invalidated")}{(run.ReplacesRunId is { } before ? $", replaces {NumberIn(runs.Single(one => one.Id == before).Number)}" : string.Empty)}{(run.RetestPlanId is null ? string.Empty : ", retest")}"),
            .. samples.Select(sample => $"sample {NumberIn(sample.Code)}: method version {VersionIn(sample.MethodVersionId)}, specification version {VersionIn(sample.SpecificationVersionId)}{(sample.ReplacesSampleId is { } before ? $", replaces {found.Samples[before]}" : string.Empty)}"),
            .. cases.Select(one => $"case {NumberIn(one.Number)} of run {NumberIn(one.RunNumber)}: {one.State} {one.Conclusion}; plans {string.Join(", ", plans.Where(plan => plan.InvestigationId == one.Id).Select(plan => plan.State))}"),
            .. versions.OrderBy(version => (version.Document, version.Number)).Select(version => $"document {version.Document} version {version.Number}: {version.State}"),
        ];
    }

    /// <summary>What is wrong with the record as a whole: its chain, its rows, and signatures that no more bind what they were given for.</summary>
    public async Task<List<string>> FaultsOfTheRecordAsync()
    {
        await using var data = laboratory.Data();
        var faults = (await RowVerifier.VerifyAsync(data, default)).Faults.ToList();
        if ((await RecordVerifier.VerifyAsync(data, null, default)).Fault is { } fault)
        {
            faults.Add(fault);
        }

        foreach (var subject in await data.Signatures.Select(one => one.SubjectId).Distinct().ToListAsync())
        {
            faults.AddRange(from seen in await Get<SignatureReading>().OfAsync(Small.People.QualityManager.Actor, subject, default)
                            where seen.Unchanged == false
                            select $"{seen.PrintedName} signed “{seen.Meaning}”, and it reads {SignedContent.ChangedWords}.");
        }

        return faults;
    }

    public ValueTask DisposeAsync() => laboratory.DisposeAsync();

    private static int NumberIn(string code) => int.Parse(code[^5..], System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A row's key and the version that it has now.</summary>
    internal sealed record Row(Guid Id, long Version);

    private sealed record Found(
        Dictionary<int, Row> Runs, Dictionary<string, Guid> Lots, Dictionary<int, Row> Cases, Dictionary<int, Row> Plans, Dictionary<(int Document, int Number), Row> Versions, Dictionary<Guid, int> Samples);
}

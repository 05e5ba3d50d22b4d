using ParticleLims.Analysis;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done from a lot's arrival to a submitted run.</summary>
internal static class BenchAbilities
{
    private const Who Arrival = Who.Bench | Who.LaboratoryManager;
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly Guid[] NoSieves = [];
    private static readonly RunState[] Planned = [RunState.Planned];
    private static readonly RunStep First = RunStep.Weigh(WeighingKind.Empty, 1);
    private static readonly BalanceReading Reading = TestBench.Reading(Nothing, 260m, RunningLaboratory.FirstMorning);
    private static readonly KeyedMass Keyed = new("260.123", "260.123", null);
    private static readonly NewLot Nameless = new("  ", Nothing, null, new LotParticulars(10m, new DateOnly(2026, 3, 1)));
    private static readonly NewSample OfNoLot = new(Nothing, Nothing, Nothing, new SampleParticulars(null, "Shift B", "Scoop", "Powder", "Dry", SampleDivision.Riffle));
    private static readonly RoomConditions Room = new(Temperature.FromCelsius(21m), 45m);
    private static readonly LotQuestion AnyLot = new();
    private static readonly EvaluationRequest OneCut = new()
    {
        Procedure = Procedure.SeparatePortions,
        Cuts = [new CutInput { Aperture = Aperture.FromMicrometres(63m), Empty = Mass.FromGrams(260m), Loaded = Mass.FromGrams(280m), After = Mass.FromGrams(261m) }],
    };

    private static readonly LotParticulars Given = new(990m, new DateOnly(2026, 3, 1), "PO 7782", "Bags of 25 kg");

    public static IReadOnlyList<Ability> All { get; } = [.. Lots, .. Cautions, .. Runs, .. Readings];

    private static IEnumerable<Ability> Lots =>
    [
        Does("lots.book-in", Arrival, "lot-number", (stage, who) => stage.Get<LotReception>().BookInAsync(who, Nameless, null, default), stage => () => stage.Small.BookInLotAsync(stage.Small.Calcite)),
        Does("samples.book-in", Arrival, "not-found", (stage, who) => stage.Get<SampleReception>().BookInAsync(who, OfNoLot, null, default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Starch);
            return () => stage.Small.BookInSampleAsync(lot, stage.Small.Starch);
        }),
        Does("samples.accept-sampling", Who.QualityManager, "not-found", (stage, who) => stage.Get<SamplingAccepting>().AcceptAsync(who, Nothing, "Three cross all of it", new SecretProof(Nothing), default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Starch);
            var booked = await stage.Get<SampleReception>().BookInAsync(stage.People.Technician.Actor, stage.Small.NewSample(lot, stage.Small.Starch).Arriving(sample => sample with { Increments = 3 }), null, default);
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<SamplingAccepting>().AcceptAsync(stage.People.QualityManager.Actor, booked.Id, "Three cross all of it", proof, default);
        }),
        Does("lots.correct", Arrival, "not-found", (stage, who) => stage.Get<LotCorrection>().CorrectAsync(who, Nothing, Given, "The truck's paper says so", 1, default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Starch);
            return () => stage.Get<LotCorrection>().CorrectAsync(stage.People.Technician.Actor, lot, Given, "The truck's paper says so", 1, default);
        }),
        Does("lots.correct-decided", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotCorrection>().CorrectDecidedAsync(who, Nothing, Given, "The truck's paper says so", 1, default), async stage =>
        {
            var lot = await RejectedAsync(stage);
            return () => stage.Get<LotCorrection>().CorrectDecidedAsync(stage.People.QualityManager.Actor, lot.Id, Given, "The truck's paper says so", 2, default);
        }),
        Does("samples.correct", Arrival, "not-found", (stage, who) => stage.Get<SampleCorrection>().CorrectAsync(who, Nothing, OfNoLot.Particulars, OfNoLot.Particulars, "The jar says so", default), async stage =>
        {
            var sample = await SampleAsync(stage, (await stage.Small.BookInAsync(stage.Small.Starch)).Sample.Id);
            return () => stage.Get<SampleCorrection>().CorrectAsync(stage.People.Technician.Actor, sample.Id, sample.Particulars, OfNoLot.Particulars, "The jar says so", default);
        }),
        Does("samples.correct-decided", Who.QualityManager, "not-found", (stage, who) => stage.Get<SampleCorrection>().CorrectDecidedAsync(who, Nothing, OfNoLot.Particulars, OfNoLot.Particulars, "The jar says so", default), async stage =>
        {
            var sample = await SampleAsync(stage, (await RejectedAsync(stage)).Sample.Id);
            return () => stage.Get<SampleCorrection>().CorrectDecidedAsync(stage.People.QualityManager.Actor, sample.Id, sample.Particulars, sample.Particulars with { TakenBy = "Shift C" }, "The jar says so", default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<CorrectionReading>().OfLotAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<LotSearch>().GoOnAsync(who, AnyLot, null, 10, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<LotSearch>().FindAsync(who, AnyLot, 0, 10, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<LotSearch>().FindAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SampleReception>().OfLotAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SampleReception>().FindAsync(who, Nothing, default)),
    ];

    private static async Task<TestLot> RejectedAsync(Stage stage)
    {
        var lot = await stage.Small.BookInAsync(stage.Small.Starch);
        await stage.Small.Desk.RejectAsync(lot.Id, "Wet when it came");
        return lot;
    }

    private static async Task<Sample> SampleAsync(Stage stage, Guid id) => (await stage.Get<SampleReception>().FindAsync(stage.People.Technician.Actor, id, default))!;

    private static IEnumerable<Ability> Cautions =>
    [
        Does("cautions.acknowledge", Who.Bench, "cautions-read", (stage, who) => stage.Get<CautionReading>().AcknowledgeAsync(who, null, SievingProcedure.NestedStack, default),
            stage => () => stage.Get<CautionReading>().AcknowledgeAsync(stage.People.Technician.Actor, Hazards.CombustibleDust, SievingProcedure.NestedStack, default)),
        Reads(Who.Bench, (stage, who) => stage.Get<CautionReading>().OpenAsync(who, null, SievingProcedure.NestedStack, default)),
    ];

    private static IEnumerable<Ability> Runs =>
    [
        Does("runs.start", Who.Bench, "not-found", (stage, who) => stage.Get<RunStart>().StartAsync(who, Nothing, new RunEquipment(Nothing, NoSieves), 1, null, null, default), async stage =>
        {
            var lot = await stage.Small.BookInAsync(stage.Small.Calcite);
            await stage.Small.ReadCautionsAsync(stage.People.Technician);
            return () => stage.Get<RunStart>().StartAsync(stage.People.Technician.Actor, lot.RunId, new RunEquipment(stage.Small.BalanceId, lot.Method.SieveIds), 1, "start", "Cautions confirmed: C-04", default);
        }),
        Does("runs.abandon", Who.Bench, "not-found", (stage, who) => stage.Get<RunStart>().AbandonAsync(who, Nothing, "Spilled it all", 1, default), async stage =>
        {
            var run = await RunAsync(stage, 1);
            return () => stage.Desk.AbandonAsync(run);
        }),
        Does("runs.weigh", Who.Bench, "not-found", (stage, who) => stage.Get<RunWeighing>().TakeAsync(who, Nothing, First, Reading, "key", default), async stage =>
        {
            var run = await RunAsync(stage, 0);
            return () => stage.Bench.WeighAsync(run, First, 260m);
        }),
        Does("runs.key-mass", Who.Bench, "not-found", (stage, who) => stage.Get<RunKeying>().KeyAsync(who, Nothing, First, Keyed, "key", default), async stage =>
        {
            var run = await RunAsync(stage, 0);
            await stage.Small.AllowKeyingAsync();
            return () => stage.Get<RunKeying>().KeyAsync(stage.People.Technician.Actor, run, First, Keyed, "key-mass", default);
        }),
        Does("runs.key-mass-again", Who.Bench, "not-found", (stage, who) => stage.Get<RunKeying>().KeyAgainAsync(who, Nothing, Nothing, Keyed, "Dust on the frame", "key", default), async stage =>
        {
            var run = await RunAsync(stage, 0);
            await stage.Small.AllowKeyingAsync();
            var mistaken = await stage.Bench.WeighAsync(run, First, 260.1m);
            return () => stage.Get<RunKeying>().KeyAgainAsync(stage.People.Technician.Actor, run, mistaken.Id, Keyed, "Dust on the frame", "key-mass-again", default);
        }),
        Does("runs.weigh-again", Who.Bench, "not-found", (stage, who) => stage.Get<RunWeighing>().TakeAgainAsync(who, Nothing, Nothing, Reading, "Dust on the frame", "key", default), async stage =>
        {
            var run = await RunAsync(stage, 1);
            return () => stage.Bench.WeighAgainAsync(run, WeighingKind.Empty, 1, 260.2m, "Dust on the frame");
        }),
        Does("runs.sieve-begin", Who.Bench, "not-found", (stage, who) => stage.Get<RunSieving>().BeginAsync(who, Nothing, 1, "key", default), async stage =>
        {
            var run = await RunAsync(stage, 2);
            return () => stage.Get<RunSieving>().BeginAsync(stage.People.Technician.Actor, run, 1, "begin", default);
        }),
        Does("runs.sieve-end", Who.Bench, "not-found", (stage, who) => stage.Get<RunSieving>().EndAsync(who, Nothing, 1, null, "key", default), async stage =>
        {
            var run = await RunAsync(stage, 2);
            await stage.Get<RunSieving>().BeginAsync(stage.People.Technician.Actor, run, 1, "begin", default);
            return () => stage.Get<RunSieving>().EndAsync(stage.People.SecondTechnician.Actor, run, 1, null, "end", default);
        }),
        Does("runs.conditions", Who.Bench, "not-found", (stage, who) => stage.Get<RunPreparing>().ReadConditionsAsync(who, Nothing, Room, "key", default), async stage =>
        {
            var run = await PreparedAsync(stage, PreparationPlan.None with { ConditionsRead = true });
            return () => stage.Get<RunPreparing>().ReadConditionsAsync(stage.People.Technician.Actor, run, Room, "room", default);
        }),
        Does("runs.prepare-begin", Who.Bench, "not-found", (stage, who) => stage.Get<RunPreparing>().BeginAsync(who, Nothing, PreparationKind.Conditioning, null, "key", default), async stage =>
        {
            var run = await PreparedAsync(stage, PreparationPlan.None with { ConditioningMinutes = 10 });
            return () => stage.Get<RunPreparing>().BeginAsync(stage.People.Technician.Actor, run, PreparationKind.Conditioning, null, "begin", default);
        }),
        Does("runs.prepare-end", Who.Bench, "not-found", (stage, who) => stage.Get<RunPreparing>().EndAsync(who, Nothing, PreparationKind.Conditioning, "key", default), async stage =>
        {
            var run = await PreparedAsync(stage, PreparationPlan.None with { ConditioningMinutes = 10 });
            await stage.Get<RunPreparing>().BeginAsync(stage.People.Technician.Actor, run, PreparationKind.Conditioning, null, "begin", default);
            stage.Running.Clock.Advance(TimeSpan.FromMinutes(10));
            return () => stage.Get<RunPreparing>().EndAsync(stage.People.Technician.Actor, run, PreparationKind.Conditioning, "end", default);
        }),
        Does("runs.flow-aid", Who.Bench, "not-found", (stage, who) => stage.Get<RunPreparing>().MixFlowAidAsync(who, Nothing, "FA-1", "key", default), async stage =>
        {
            var run = await PreparedAsync(stage, PreparationPlan.None with { FlowAid = "precipitated silica", FlowAidPercent = 0.5m });
            return () => stage.Get<RunPreparing>().MixFlowAidAsync(stage.People.Technician.Actor, run, "FA-1", "mix", default);
        }),
        Does("runs.scan", Who.Bench, "not-found", (stage, who) => stage.Get<RunScanning>().ScanAsync(who, Nothing, "TS-1", "key", default), async stage =>
        {
            var run = await RunAsync(stage, 0);
            return () => stage.Bench.ScanAsync(run, "TS-GC-45-020");
        }),
        Does("runs.look-at-sieve", Who.Bench, "not-found", (stage, who) => stage.Get<RunLooking>().LookAsync(who, Nothing, 1, "Mesh whole", "key", default), async stage =>
        {
            for (var earlier = 0; earlier < 3; earlier++)
            {
                await (await stage.Small.BookInAsync(stage.Small.Calcite)).SubmitAsync(Powder.Calcite);
            }

            var run = await RunAsync(stage, 0);
            return () => stage.Bench.LookAsync(run, 1, "Mesh whole");
        }),
        Does("runs.submit", Who.Bench, "not-found", (stage, who) => stage.Get<RunSubmission>().SubmitAsync(who, Nothing, "key", default), async stage =>
        {
            var run = await RunAsync(stage, 16);
            return () => stage.Bench.SubmitAsync(run);
        }),
    ];

    private static IEnumerable<Ability> Readings =>
    [
        Reads(Who.Staff, (stage, who) => stage.Get<RunReading>().FindAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RunReading>().InStatesAsync(who, Planned, 10, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RunReading>().OfLotAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RunReading>().ResultsOfLotAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RunReading>().LastAcceptedAsync(who, Nothing, Nothing, 10, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RunChoosing>().ForAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RunChoosing>().BalancesAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TareHistory>().OfAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentUses>().OfAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<TareHistory>().UsualAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<FreeEvaluation>().EvaluateAsync(who, OneCut, default)),
    ];

    private static async Task<Guid> RunAsync(Stage stage, int steps)
    {
        var lot = await stage.Small.BookInAsync(stage.Small.Calcite);
        await stage.Bench.StartAsync(lot.RunId, lot.Method);
        for (var step = 0; step < steps; step++)
        {
            await stage.Bench.StepAsync(lot.RunId, Powder.Calcite);
        }

        return lot.RunId;
    }

    private static async Task<Guid> PreparedAsync(Stage stage, PreparationPlan plan)
    {
        var lot = await stage.Small.BookInAsync(await stage.Small.WithMethodAsync(stage.Small.Calcite, draft => draft with { Preparation = plan }));
        await stage.Bench.StartAsync(lot.RunId, lot.Method);
        return lot.RunId;
    }
}

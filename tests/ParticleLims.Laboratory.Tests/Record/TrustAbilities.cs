using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>How balances are tested, and what follows when equipment fails.</summary>
internal static class TrustAbilities
{
    private const string Why = "Missed by four percent";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly KeyedMass Keyed = new("100.000", "100.000", null);
    private static readonly CheckWeightCard NoWeight = new(" ", Mass.FromGrams(100m), WeightClass.F1, "Bench 1");
    private static readonly CheckWeightCard NewWeight = NoWeight with { Serial = "W-100-1" };
    private static readonly WeightCertificate Certificate = new("K-77", new DateOnly(2026, 1, 5), Mass.FromMicrograms(100_000_050), Mass.FromMicrograms(100), "S-12", new DateOnly(2028, 1, 5));
    private static readonly RegisterFile NoRegister = new("none.csv", new string('0', 64), []);
    private static readonly RegisterFile NewRegister = NoRegister with { Rows = [new WeightRow(new RowPlace(null, 2), NewWeight, Certificate, new EarlierLife())] };
    private static readonly IReadOnlyList<Mass> Displays = [.. Enumerable.Range(0, 10).Select(at => Mass.FromMicrograms(100_000_000 + (at % 2 * 1_000)))];
    private static readonly BalanceReading Reading = TestBench.Reading(Nothing, 100m, RunningLaboratory.FirstMorning);

    public static IReadOnlyList<Ability> All { get; } = [.. Testing, .. Weights, .. Failures, .. Exchange];

    private static IEnumerable<Ability> Testing =>
    [
        Does("balances.check", Who.Bench | Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<BalanceTesting>().CheckAsync(who, Nothing, Reading, CheckCircumstances.Ready, null, default),
            stage => () => stage.Get<BalanceTesting>().CheckAsync(stage.People.Technician.Actor, stage.Small.BalanceId, stage.Bench.Reading(100m), CheckCircumstances.Ready, "check", default)),
        Does("balances.check-keyed", Who.Bench | Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<BalanceTesting>().CheckKeyedAsync(who, Nothing, Keyed, CheckCircumstances.Ready, null, default), async stage =>
        {
            await stage.Small.AllowKeyingAsync();
            return () => stage.Get<BalanceTesting>().CheckKeyedAsync(stage.People.Technician.Actor, stage.Small.BalanceId, Keyed, CheckCircumstances.Ready, "check", default);
        }),
        Does("balances.repeatability", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<BalanceTesting>().TestRepeatabilityAsync(who, Nothing, Displays, 1, null, default),
            stage => () => stage.Get<BalanceTesting>().TestRepeatabilityAsync(Manager(stage), stage.Small.BalanceId, Displays, 2, "test", default)),
        Does("balances.repeatability-plan", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<BalanceTesting>().PlanRepeatabilityAsync(who, Nothing, 180, "As the house asks", 1, default),
            stage => () => stage.Get<BalanceTesting>().PlanRepeatabilityAsync(Manager(stage), stage.Small.BalanceId, 180, "As the house asks", 2, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<BalanceTesting>().DuesAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<BalanceTesting>().TestsAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Weights =>
    [
        Does("check-weights.register", Who.LaboratoryManager, "weight-incomplete", (stage, who) => stage.Get<CheckWeightRegister>().RegisterAsync(who, NoWeight, null, default),
            stage => () => stage.Get<CheckWeightRegister>().RegisterAsync(Manager(stage), NewWeight, "register", default)),
        Does("check-weights.calibrate", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<CheckWeightRegister>().CalibrateAsync(who, Nothing, Certificate, 1, default), async stage =>
        {
            var weight = await stage.Get<CheckWeightRegister>().RegisterAsync(Manager(stage), NewWeight, null, default);
            return () => stage.Get<CheckWeightRegister>().CalibrateAsync(Manager(stage), weight, Certificate, 1, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<CheckWeightRegister>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<CheckWeightRegister>().CalibrationsAsync(who, Nothing, default)),
        .. EquipmentAbilities.Life<CheckWeight>(WeightInServiceAsync, CertifiedWeightAsync),
    ];

    private static IEnumerable<Ability> Exchange =>
    [
        Does("equipment.import", Who.LaboratoryManager, "import-rows", (stage, who) => stage.Get<RegisterImport>().ImportAsync(who, NoRegister, string.Empty, null, default), async stage =>
        {
            var plan = await stage.Get<RegisterImport>().PlanAsync(Manager(stage), NewRegister, default);
            return () => stage.Get<RegisterImport>().ImportAsync(Manager(stage), NewRegister, plan.Digest, "import", default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<RegisterReading>().AllAsync(who, default)),
        Reads(Who.LaboratoryManager, (stage, who) => stage.Get<RegisterImport>().PlanAsync(who, NewRegister, default)),
    ];

    private static IEnumerable<Ability> Failures =>
    [
        Does("equipment-failures.open", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<EquipmentFailing>().MarkAsync<TestSieve>(who, Nothing, Why, RunningLaboratory.FirstMorning, 1, null, default),
            stage => () => MarkAsync(stage)),
        Does("equipment-failures.decide", Who.QualityManager, "not-found", (stage, who) => stage.Get<EquipmentFailing>().DecideAsync(who, Nothing, Nothing, TouchedLotDecision.ResultsStand, Why, 1, default), async stage =>
        {
            var lot = await stage.Small.BookInAsync(stage.Small.Calcite);
            await stage.Bench.StartAsync(lot.RunId, stage.Small.Calcite);
            var failure = await MarkAsync(stage);
            return () => stage.Get<EquipmentFailing>().DecideAsync(stage.People.QualityManager.Actor, failure, lot.Id, TouchedLotDecision.ResultsStand, Why, 1, default);
        }),
        Does("equipment-failures.close", Who.QualityManager, "not-found", (stage, who) => stage.Get<EquipmentFailing>().CloseAsync(who, Nothing, Why, new SecretProof(Nothing), 1, default), async stage =>
        {
            var failure = await MarkAsync(stage);
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<EquipmentFailing>().CloseAsync(stage.People.QualityManager.Actor, failure, "It touched nothing", proof, 1, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentFailureReading>().FindAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentFailureReading>().AllAsync(who, null, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentFailureReading>().GoodUntilAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentFailureReading>().UsedSinceAsync(who, Nothing, RunningLaboratory.FirstMorning, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<CertificateDoubts>().OfFailureAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<CertificateDoubts>().OpenAsync(who, default)),
    ];

    private static Task<Guid> MarkAsync(Stage stage) => stage.Get<EquipmentFailing>().MarkAsync<TestSieve>(Manager(stage), stage.Small.Calcite.SieveIds[0], Why, RunningLaboratory.FirstMorning, 2, "mark", default);

    // Its certificate would bring it into service by itself; one that waits all the same is commissioned by hand.
    private static async Task<Guid> CertifiedWeightAsync(Stage stage)
    {
        var weight = await stage.Get<CheckWeightRegister>().RegisterAsync(Manager(stage), NewWeight, null, default);
        await using var data = stage.Data();
        await data.CheckWeights.ExecuteUpdateAsync(weights => weights.SetProperty(one => one.InspectionDueOn, Certificate.DueOn));
        return weight;
    }

    private static async Task<Guid> WeightInServiceAsync(Stage stage)
    {
        var weight = await stage.Get<CheckWeightRegister>().RegisterAsync(Manager(stage), NewWeight, null, default);
        await stage.Get<CheckWeightRegister>().CalibrateAsync(Manager(stage), weight, Certificate, 1, default);
        return weight;
    }

    private static Actor Manager(Stage stage) => stage.People.LaboratoryManager.Actor;
}

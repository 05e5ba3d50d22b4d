using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>How sieves are looked after, and when one may be used all the same.</summary>
internal static class SieveAbilities
{
    private const Who Lookers = Who.Bench | Who.LaboratoryManager;
    private const string Why = "As the look showed";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly SieveFound Good = new(SieveFaults.None, "Looked at against the lamp");
    private static readonly SieveCarePlan Plan = new(90, 100, Mass.FromMicrograms(2_000));
    private static readonly FileGiven Document = new("certificate.pdf", [.. "%PDF-1.7 a certificate"u8]);

    public static IReadOnlyList<Ability> All { get; } =
    [
        Does("sieves.inspect", Lookers, "not-found", (stage, who) => stage.Get<SieveCare>().InspectAsync(who, Nothing, Good, 1, null, default),
            stage => () => stage.Get<SieveCare>().InspectAsync(stage.People.Technician.Actor, Sieve(stage), Good, 2, "look", default)),
        Does("sieves.clean", Lookers, "not-found", (stage, who) => stage.Get<SieveCare>().CleanAsync(who, Nothing, CleaningWay.SoapAndWater, Why, 1, default),
            stage => () => stage.Get<SieveCare>().CleanAsync(stage.People.Technician.Actor, Sieve(stage), CleaningWay.SoapAndWater, Why, 2, default)),
        Does("sieves.care-plan", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<SieveCare>().PlanAsync(who, Nothing, Plan, Why, 1, default),
            stage => () => stage.Get<SieveCare>().PlanAsync(stage.People.LaboratoryManager.Actor, Sieve(stage), Plan, Why, 2, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveCare>().HistoryAsync(who, Nothing, default)),
        Does("equipment.add-document", Who.LaboratoryManager, "not-found",
            (stage, who) => stage.Get<EquipmentDocuments>().AddAsync<TestSieve>(who, Nothing, EquipmentDocumentKind.CalibrationCertificate, "K-1", Document, null, default),
            stage => () => stage.Get<EquipmentDocuments>().AddAsync<TestSieve>(stage.People.LaboratoryManager.Actor, Sieve(stage), EquipmentDocumentKind.CalibrationCertificate, "K-100", Document, "add", default)),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentDocuments>().OfAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentDocuments>().OpenAsync(who, Nothing, default)),
        Does("equipment.allow-unfit", Who.QualityManager, "not-found", (stage, who) => stage.Get<FitnessOverriding>().AllowAsync(who, Nothing, Nothing, Why, new SecretProof(Nothing), default), async stage =>
        {
            var lot = await stage.Small.BookInAsync(stage.Small.Calcite);
            stage.Running.Clock.Advance(TimeSpan.FromDays(400));
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<FitnessOverriding>().AllowAsync(stage.People.QualityManager.Actor, lot.RunId, Sieve(stage), Why, proof, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<FitnessOverriding>().OfEquipmentAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveFitnessReading>().FindAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveFitnessReading>().NearAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveFitnessReading>().ReferencesNearAsync(who, default)),
    ];

    private static Guid Sieve(Stage stage) => stage.Small.Calcite.SieveIds[0];
}

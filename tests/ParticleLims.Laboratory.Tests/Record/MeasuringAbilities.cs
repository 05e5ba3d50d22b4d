using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Sieves;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is measured on sieves.</summary>
internal static class MeasuringAbilities
{
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly ApertureCard Document = new()
    {
        Document = "I-4711", MeasuredOn = new DateOnly(2026, 1, 5), Mean = Aperture.FromMicrometres(45.3m), Largest = Aperture.FromMicrometres(52m), Deviation = Aperture.FromMicrometres(1.2m), Count = 200, CountBeyond = 0,
    };

    private static readonly ToleranceCard Tolerances = new("ISO 3310-1:2016", "The laboratory's copy, table 1", "45 3.1 13 8", 6m);
    private static readonly ToleranceCard NoTolerances = Tolerances with { Edition = " " };
    private static readonly MaterialCard NoBeads = new(" ", "GB-7", "RM-GB-7", new DateOnly(2028, 1, 1), "38 10 0.5\n42 30 0.5\n46 60 0.5\n52 90 0.5");
    private static readonly MaterialCard Beads = NoBeads with { Name = "Glass beads" };
    private static readonly IReadOnlyList<ReferenceSieving> Sievings = [new(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(285m))];

    public static IReadOnlyList<Ability> All { get; } =
    [
        Does("sieves.measure", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<SieveMeasuring>().MeasureAsync(who, Nothing, Document, 1, default),
            stage => () => stage.Get<SieveMeasuring>().MeasureAsync(stage.People.LaboratoryManager.Actor, stage.Small.Calcite.SieveIds[2], Document, 2, default)),
        Does("reference-materials.add", Who.LaboratoryManager, "material-incomplete", (stage, who) => stage.Get<SieveMeasuring>().AddMaterialAsync(who, NoBeads, null, default),
            stage => () => stage.Get<SieveMeasuring>().AddMaterialAsync(stage.People.LaboratoryManager.Actor, Beads, "add", default)),
        Does("sieves.reference-check", Who.Bench | Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<SieveMeasuring>().CheckAsync(who, Nothing, Nothing, Nothing, Sievings, 1, null, default), async stage =>
        {
            var material = await stage.Get<SieveMeasuring>().AddMaterialAsync(stage.People.LaboratoryManager.Actor, Beads, null, default);
            return () => stage.Get<SieveMeasuring>().CheckAsync(stage.People.Technician.Actor, stage.Small.Calcite.SieveIds[2], material, stage.Small.BalanceId, Sievings, 2, "check", default);
        }),
        Does("tolerances.add", Who.LaboratoryManager, "tolerance-incomplete", (stage, who) => stage.Get<ToleranceKeeping>().AddAsync(who, NoTolerances, null, default),
            stage => () => stage.Get<ToleranceKeeping>().AddAsync(stage.People.LaboratoryManager.Actor, Tolerances, "add", default)),
        Reads(Who.Staff, (stage, who) => stage.Get<ToleranceKeeping>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveMeasuring>().MaterialsAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveMeasuring>().OfAsync(who, Nothing, default)),
    ];
}

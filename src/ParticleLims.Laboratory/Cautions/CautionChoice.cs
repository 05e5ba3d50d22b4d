using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;

namespace ParticleLims.Laboratory.Cautions;

/// <summary>Chooses the cautions for a step from the product's hazards and the procedure: those to stop at first, then by code.</summary>
public static class CautionChoice
{
    private const Hazards Flammable = Hazards.CombustibleDust | Hazards.LowIgnitionEnergy | Hazards.ReactiveMetal;
    private const Hazards Harmful = Hazards.Toxic | Hazards.CrystallineSilica | Hazards.Sensitiser;

    private static readonly (CautionMoment Moment, Func<Hazards, SievingProcedure, bool> When, Caution Caution)[] Rules =
    [
        (CautionMoment.Start, Always, CautionTexts.ReadHazards),
        (CautionMoment.Start, Always, CautionTexts.StopAndMakeSafe),
        (CautionMoment.Start, Always, CautionTexts.FineDust),
        (CautionMoment.Start, Any(Hazards.CrystallineSilica), CautionTexts.Silica),
        (CautionMoment.Start, Any(Hazards.Toxic), CautionTexts.Toxic),
        (CautionMoment.Start, Any(Hazards.Sensitiser), CautionTexts.Sensitiser),
        (CautionMoment.Start, Any(Hazards.Irritant), CautionTexts.Irritant),
        (CautionMoment.Start, Any(Flammable), CautionTexts.DustBurns),
        (CautionMoment.Start, Any(Flammable), CautionTexts.ConfirmFive),
        (CautionMoment.Start, Any(Flammable | Harmful), CautionTexts.CleanUp),
        (CautionMoment.Start, Any(Hazards.LowIgnitionEnergy), CautionTexts.LowIgnition),
        (CautionMoment.Start, Any(Hazards.ReactiveMetal), CautionTexts.FineMetal),
        (CautionMoment.Start, Any(Hazards.Oxidiser), CautionTexts.Oxidiser),

        (CautionMoment.Drying, Always, CautionTexts.StopAndMakeSafe),
        (CautionMoment.Drying, Always, CautionTexts.HotOven),
        (CautionMoment.Drying, Any(Flammable), CautionTexts.NoOrdinaryOven),
        (CautionMoment.Drying, Any(Flammable), CautionTexts.SmouldersLater),

        (CautionMoment.Weighing, Always, CautionTexts.RoomTemperature),
        (CautionMoment.Weighing, Any(Flammable | Harmful), CautionTexts.CarryCovered),
        (CautionMoment.Weighing, Any(Flammable), CautionTexts.StaticSpoils),

        (CautionMoment.Sieving, Always, CautionTexts.StopAndMakeSafe),
        (CautionMoment.Sieving, Always, CautionTexts.Hearing),
        (CautionMoment.Sieving, Always, CautionTexts.KeepClear),
        (CautionMoment.Sieving, Any(Flammable), CautionTexts.Earthing),
        (CautionMoment.Sieving, Any(Hazards.LowIgnitionEnergy), CautionTexts.LowIgnition),
        (CautionMoment.Sieving, (_, procedure) => procedure != SievingProcedure.NestedStack, CautionTexts.AirJet),
        (CautionMoment.Sieving, (_, procedure) => procedure == SievingProcedure.NestedStack, CautionTexts.Clamp),
        (CautionMoment.Sieving, (_, procedure) => procedure == SievingProcedure.NestedStack, CautionTexts.HeavyStack),
        (CautionMoment.Sieving, (_, procedure) => procedure == SievingProcedure.NestedStack, CautionTexts.OpenSlowly),

        (CautionMoment.Finished, Always, CautionTexts.CleanBefore),
        (CautionMoment.Finished, Any(Flammable | Harmful), CautionTexts.Waste),
        (CautionMoment.Finished, Any(Flammable | Harmful), CautionTexts.CleanUp),
    ];

    /// <summary>The cautions for a moment. Without recorded hazards there is only one: do not open it.</summary>
    public static IReadOnlyList<Caution> For(CautionMoment moment, Hazards? hazards, SievingProcedure procedure) => hazards is not { } known
        ? [CautionTexts.NoHazardData]
        : [.. Rules.Where(rule => rule.Moment == moment && rule.When(known, procedure)).Select(rule => rule.Caution)
            .OrderByDescending(caution => caution.Stop).ThenBy(caution => caution.Code, StringComparer.Ordinal)];

    /// <summary>What a person acknowledges once, for each version of the texts, before the first run with such a powder: everything shown on the way that is not confirmed each time.</summary>
    public static IReadOnlyList<Caution> ToAcknowledge(Hazards? hazards, SievingProcedure procedure) => hazards is null ? []
        : [CautionTexts.LocalRules, .. Enum.GetValues<CautionMoment>().SelectMany(moment => For(moment, hazards, procedure)).Where(caution => !caution.Stop).DistinctBy(caution => caution.Code).OrderBy(caution => caution.Code, StringComparer.Ordinal)];

    private static bool Always(Hazards hazards, SievingProcedure procedure) => true;

    private static Func<Hazards, SievingProcedure, bool> Any(Hazards flags) => (hazards, _) => (hazards & flags) != Hazards.None;
}

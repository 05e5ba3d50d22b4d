using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>What the methods and specifications of the small laboratory say; all of it invented.</summary>
public static class TestMethods
{
    public static MethodDraft Calcite { get; } = new()
    {
        Procedure = SievingProcedure.CarriedResidue, Apertures = Apertures(20m, 32m, 45m, 63m), PortionLeast = Mass.FromGrams(9.5m), PortionMost = Mass.FromGrams(10.5m), Seconds = 180,
        PressureLowest = Pressure.FromPascals(2500), PressureHighest = Pressure.FromPascals(4500), MostTransferLossPercent = 1m,
    };

    public static SpecificationDraft CalciteLimits { get; } = new(
    [
        new LimitDraft(LimitCharacteristic.Passing, 97m, null, 1, Aperture.FromMicrometres(45m)),
        new LimitDraft(LimitCharacteristic.Percentile, 20m, 30m, 1, Percent: 50m),
    ]);

    public static MethodDraft Starch { get; } = new()
    {
        Procedure = SievingProcedure.SeparatePortions, Apertures = Apertures(32m, 63m), PortionLeast = Mass.FromGrams(19m), PortionMost = Mass.FromGrams(21m), Seconds = 120,
        PressureLowest = Pressure.FromPascals(2500), PressureHighest = Pressure.FromPascals(4500), Replicates = 2, RepeatabilityLimitPercent = 2m,
    };

    public static SpecificationDraft StarchLimits { get; } = new([new LimitDraft(LimitCharacteristic.Passing, 95m, null, 1, Aperture.FromMicrometres(63m))])
    {
        Sampling = new SamplingPlan { Increments = 5, Procedure = "Scoop over the run-off", LeastMass = Mass.FromGrams(200m) },
    };

    public static MethodDraft Spice { get; } = new()
    {
        Procedure = SievingProcedure.NestedStack, Apertures = Apertures(125m, 250m, 500m), PortionLeast = Mass.FromGrams(95m), PortionMost = Mass.FromGrams(105m), Seconds = 300, LeastRecoveryPercent = 98m,
    };

    public static SpecificationDraft SpiceLimits { get; } = new([new LimitDraft(LimitCharacteristic.Retained, null, 5m, 1, Aperture.FromMicrometres(500m)) { UpperAlert = 4.5m }]);

    private static Aperture[] Apertures(params decimal[] micrometres) => [.. micrometres.Select(Aperture.FromMicrometres)];
}

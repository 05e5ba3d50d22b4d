using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Demonstration.Model;

/// <summary>A product of the demonstration with everything that the model knows of it. Portions, times and pressures are common practice, no source.</summary>
/// <param name="Code">The product's code.</param>
/// <param name="Name">Its name.</param>
/// <param name="Description">What it is.</param>
/// <param name="Hazards">What its safety data sheet would say.</param>
/// <param name="Powder">The distribution that the mill aims at.</param>
/// <param name="Scatter">Relative standard deviation of the sizes from lot to lot.</param>
/// <param name="Drift">By what part the sizes grow over the whole history.</param>
/// <param name="Kilograms">The least and the most of a lot.</param>
/// <param name="Customers">Who buys it, as often as they stand there; null is stock.</param>
/// <param name="MethodTitle">The title of its method.</param>
/// <param name="Method">The method at the beginning.</param>
/// <param name="Limits">The specification at the beginning.</param>
/// <param name="Density">The true density in g/cm³ (handbook values, from memory); null for a blend.</param>
internal sealed record ProductLine(
    string Code, string Name, string Description, Hazards Hazards, Powder Powder, double Scatter, double Drift, (int Least, int Most) Kilograms, IReadOnlyList<string?> Customers,
    string MethodTitle, MethodDraft Method, IReadOnlyList<LimitDraft> Limits, decimal? Density = null)
{
    /// <summary>How its lots are sampled; null where the specification says nothing of it.</summary>
    public SamplingPlan? Sampling { get; init; }

    /// <summary>What its lots are packed in, and how much goes into one.</summary>
    public required (string Name, int Kilograms) Packing { get; init; }

    /// <summary>After so many months a lot has expired; null for one that does not.</summary>
    public int? MonthsOfUse { get; init; }

    /// <summary>A CAS number (from memory); null for none.</summary>
    public string? Identification { get; init; }

    /// <summary>Whether each determination must conform, beside the mean.</summary>
    public Combination Combination { get; init; }

    /// <summary>All products.</summary>
    public static IReadOnlyList<ProductLine> All { get; } =
    [
        new("GC-45", "Ground calcite 45", "Calcium carbonate, dry ground and classified", Hazards.None, RosinRammlerPowder.OfMedian(43, 1.9), 0.014, 0, (8_000, 24_000),
            [Catalogue.Veldt, Catalogue.Veldt, Catalogue.Halvard, null], "Ground calcite by air jet, residue carried",
            AirJet(SievingProcedure.CarriedResidue, [20, 32, 45, 63, 90], 120) with { MostTransferLossPercent = 0.5m },
            [Size(50, 36, 50), Passing(90, 90, null)], 2.71m) { Packing = ("paper sacks", 25), Identification = "CAS 471-34-1", Sampling = new SamplingPlan { Increments = 10, Procedure = "cross-stream cutter at the silo inlet, one increment every ten minutes", LeastMass = Mass.FromGrams(250m) } },
        new("MS-90", "Milled sugar 90", "Sucrose, milled, with no flow aid", Hazards.CombustibleDust, RosinRammlerPowder.OfMedian(54, 2.1), 0.012, 0.115, (2_000, 12_000),
            [Catalogue.Orrin, Catalogue.Orrin, null], "Milled sugar by air jet, residue carried",
            AirJet(SievingProcedure.CarriedResidue, [45, 63, 90, 125], 90) with { MostTransferLossPercent = 0.5m, Preparation = DryRoom },
            [Size(50, 48, 64), Passing(90, 75, null), Passing(125, 94, null)], 1.59m) { Packing = ("paper sacks", 25), MonthsOfUse = 24, Identification = "CAS 57-50-1" },
        new("PS-63", "Pea starch 63", "Native pea starch, dried and sifted", Hazards.CombustibleDust | Hazards.Sensitiser, new LogNormalPowder(26.5, 0.44), 0.02, 0, (1_000, 6_000),
            [Catalogue.Halvard, Catalogue.Halvard, Catalogue.Orrin], "Pea starch by air jet, separate portions",
            AirJet(SievingProcedure.SeparatePortions, [20, 32, 45, 63], 150) with { Percentiles = [50m, 90m, 97m], EndPoint = EndPointPlan.By(EndPointRule.Pharmacopoeia, 60, 3) },
            [Passing(63, 95, null), Size(50, 23, 31)], 1.5m) { Packing = ("paper sacks", 20), MonthsOfUse = 24 },
        new("SB-500", "Dry-blended spice 500", "Blend of ground pepper, paprika and mustard seed", Hazards.CombustibleDust | Hazards.Sensitiser | Hazards.Irritant,
            RosinRammlerPowder.OfMedian(183, 1.6), 0.025, 0, (400, 2_000), [Catalogue.Orrin], "Dry-blended spice, nested stack",
            new MethodDraft
            {
                Procedure = SievingProcedure.NestedStack, Apertures = [.. new[] { 63, 125, 180, 250, 355, 500 }.Select(Wide)], PortionLeast = Mass.FromGrams(50m), PortionMost = Mass.FromGrams(100m), Seconds = 600,
                LeastRecoveryPercent = 99m, Replicates = 2, RepeatabilityLimitPercent = 2m, SievesScanned = true, AuthorisationNeeded = true, WhatChanged = "First version",
            },
            [Passing(500, 95, null), Passing(63, null, 20), Size(50, 150, 220) with { GreatestSpread = 12m }])
        {
            Combination = Combination.MeanAndEach, Packing = ("cardboard drums", 50), MonthsOfUse = 12,
            Sampling = new SamplingPlan { Increments = 5, Procedure = "thief from five bags of the lot, top to bottom", LeastMass = Mass.FromGrams(200m), ToRecord = "the numbers of the bags" },
        },
    ];

    // Milled sugar takes up water from damp air.
    private static PreparationPlan DryRoom => new() { ConditionsRead = true, TemperatureLowest = Temperature.FromCelsius(18m), TemperatureHighest = Temperature.FromCelsius(25m), HumidityHighestPercent = 60m };

    /// <summary>The product with a code.</summary>
    public static ProductLine Of(string code) => All.Single(line => line.Code == code);

    /// <summary>A limit on the percentage passing.</summary>
    public static LimitDraft Passing(int micrometres, decimal? lower, decimal? upper) => new(LimitCharacteristic.Passing, lower, upper, 1, Aperture: Wide(micrometres));

    /// <summary>A limit on a percentile in µm.</summary>
    public static LimitDraft Size(decimal percent, decimal? lower, decimal? upper) => new(LimitCharacteristic.Percentile, lower, upper, 1, Percent: percent);

    private static Aperture Wide(int micrometres) => Aperture.FromMicrometres(micrometres);

    private static MethodDraft AirJet(SievingProcedure procedure, int[] micrometres, int seconds) => new()
    {
        Procedure = procedure, Apertures = [.. micrometres.Select(Wide)], PortionLeast = Mass.FromGrams(10m), PortionMost = Mass.FromGrams(15m), Seconds = seconds,
        PressureLowest = Pressure.FromPascals(2_000), PressureHighest = Pressure.FromPascals(4_000), AuthorisationNeeded = true,
    };
}

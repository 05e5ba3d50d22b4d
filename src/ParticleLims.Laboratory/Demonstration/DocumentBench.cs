using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>The documents that came with some sieves of the demonstration: measured apertures and a file, both made by the model for a maker that there is not.</summary>
internal sealed class DocumentBench(SieveMeasuring measuring, EquipmentDocuments documents, Crew crew, DemonstrationOptions options, HistoryClock clock)
{
    private const int Measured = 200;
    private readonly Chance chance = new Chance(options.Seed).For(-5);

    /// <summary>What stands on the frame of a sieve.</summary>
    public static TypePlate Sieve { get; } = new("Tarnfell Sieve Works (invented)", "W 200");

    /// <summary>What stands on a balance.</summary>
    public static TypePlate Balance { get; } = new("Tarnfell Balance Works (invented)", "B 1200", "1.04");

    /// <summary>What stands on a sieving unit.</summary>
    public static TypePlate Unit(bool isAirJet) => new("Tarnfell Machine Works (invented)", isAirJet ? "J 2" : "S 2", isAirJet ? "3.2" : "2.0");

    /// <summary>Enters the inspection certificate of a sieve and keeps it as a file, within so many seconds.</summary>
    public async Task EnterAsync(SieveInPlay sieve, int seconds, CancellationToken cancellation)
    {
        var card = CardOf(sieve);
        clock.Pass(seconds / 2);
        await measuring.MeasureAsync(crew.LaboratoryManager.Actor, sieve.Id, card, 1, cancellation);
        clock.Pass(seconds - (seconds / 2));
        await documents.AddAsync<TestSieve>(
            crew.LaboratoryManager.Actor, sieve.Id, card.Kind, $"Inspection certificate {card.Document}", new FileGiven($"{card.Document}.pdf", PlainPdf.Of(LinesOf(sieve, card))), null, cancellation);
    }

    private ApertureCard CardOf(SieveInPlay sieve)
    {
        var nominal = Aperture.FromMicrometres(sieve.Aperture);
        var (mean, single, apart) = (sieve.Effective(0), WireClothTolerances.SingleDeviation(nominal), 0.15 + (0.002 * sieve.Aperture));
        var half = apart * chance.Between(0.3, 1);
        return new ApertureCard
        {
            Kind = EquipmentDocumentKind.InspectionCertificate, Document = $"{sieve.Serial}-C", MeasuredOn = WorkingTime.DayOf(clock.Now).AddDays(-40), MeanWarp = Tenths(mean - half), MeanWeft = Tenths(mean + half),
            Largest = Tenths(mean + (single * chance.Between(0.25, 0.4))), Deviation = Tenths(single * 0.12), ExpandedUncertainty = Tenths(0.3 + (0.002 * sieve.Aperture)), Count = Measured, CountBeyond = 0,
            WireMicrometres = Math.Round(0.7m * sieve.Aperture, 1),
        };
    }

    private static string[] LinesOf(SieveInPlay sieve, ApertureCard card) =>
    [
        $"Inspection certificate {card.Document}",
        $"{Sieve.Maker}, model {Sieve.Model}. Made by the demonstration; no such maker exists.",
        string.Create(CultureInfo.InvariantCulture, $"Test sieve {sieve.Serial}, nominal aperture {sieve.Aperture} um, frame 200 mm, ISO 3310-1:2016"),
        string.Create(CultureInfo.InvariantCulture, $"Measured on {card.MeasuredOn:yyyy-MM-dd}: {card.Count} apertures"),
        string.Create(CultureInfo.InvariantCulture, $"Mean aperture of the warp {card.MeanWarp!.Value.Micrometres:0.0} um, of the weft {card.MeanWeft!.Value.Micrometres:0.0} um"),
        string.Create(CultureInfo.InvariantCulture, $"Largest aperture {card.Largest.Micrometres:0.0} um, standard deviation {card.Deviation!.Value.Micrometres:0.0} um"),
        string.Create(CultureInfo.InvariantCulture, $"Mean diameter of the wires {card.WireMicrometres:0.0} um"),
    ];

    private static Aperture Tenths(double micrometres) => Aperture.FromMicrometres((decimal)Math.Round(micrometres, 1));
}

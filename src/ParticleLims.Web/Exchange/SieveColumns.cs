using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Web.Exchange;

/// <summary>The columns of test sieves.</summary>
internal static class SieveColumns
{
    private static readonly EquipmentDocumentKind[] Kinds = [EquipmentDocumentKind.ComplianceDocument, EquipmentDocumentKind.InspectionCertificate, EquipmentDocumentKind.CalibrationCertificate, EquipmentDocumentKind.Other];

    public static ExchangeColumn Serial { get; } = new("Serial number", null, "serial", "As on the frame.") { Required = true, IsText = true, Longest = 60 };
    public static ExchangeColumn Aperture { get; } = new("Nominal aperture", "µm", "aperture", "63; 1000 for 1 mm.") { Required = true };
    public static ExchangeColumn Frame { get; } = new("Frame diameter", "mm", "frameMillimetres", "200, 203, …") { Required = true };
    public static ExchangeColumn Standard { get; } = new("Standard of the cloth", null, "standard", "With its edition: ISO 3310-1:2016.") { Required = true, IsText = true };
    public static ExchangeColumn Place { get; } = new("Place", null, "place", "Where it hangs.") { Required = true, IsText = true };
    public static ExchangeColumn EveryDays { get; } = new("Inspect after", "days", "interval", "1 to 1100; 365 where it is empty.");
    public static ExchangeColumn EveryRuns { get; } = new("Inspect after", "runs", "intervalRuns", "1 to 10000; only the days count where it is empty.");
    public static ExchangeColumn Scatter { get; } = new("Scatter of the empty mass", "mg", "tareScatter", "Standard deviation of its empty mass, cleaning included; 3 where it is empty.");
    public static ExchangeColumn ReferenceDays { get; } = new("Check with a reference material after", "days", "referenceInterval", "1 to 1100; by no days where it is empty.");
    public static ExchangeColumn ReferenceRuns { get; } = new("Check with a reference material after", "runs", "referenceIntervalRuns", "1 to 10000; by no runs where it is empty.");
    public static ExchangeColumn Kind { get; } = new("Document kind", null, "kind", "compliance document, inspection certificate, calibration certificate, or other document for the laboratory's own measurement.");
    public static ExchangeColumn Document { get; } = new("Document number", null, "document", "Of the document that gives the measured apertures. Without a measurement leave these columns empty.") { IsText = true };
    public static ExchangeColumn MeasuredOn { get; } = new("Measured on", null, "measuredOn", "A day: 2026-03-02.");
    public static ExchangeColumn Mean { get; } = new("Mean aperture", "µm", "mean", "As measured; may be empty where the document gives warp and weft.");
    public static ExchangeColumn MeanWarp { get; } = new("Mean aperture of the warp", "µm", "meanWarp", "Where the document tells the directions apart.");
    public static ExchangeColumn MeanWeft { get; } = new("Mean aperture of the weft", "µm", "meanWeft", "Where the document tells the directions apart.");
    public static ExchangeColumn Wire { get; } = new("Mean diameter of the wires", "µm", "wire", "Where the document says it.");
    public static ExchangeColumn Largest { get; } = new("Largest aperture", "µm", "largest", "As measured.");
    public static ExchangeColumn Deviation { get; } = new("Standard deviation of the apertures", "µm", "deviation", "Where the document says it.");
    public static ExchangeColumn Uncertainty { get; } = new("Expanded uncertainty of the mean (k = 2)", "µm", "expandedUncertainty", "Where the document says it.");
    public static ExchangeColumn Count { get; } = new("Apertures measured", null, "count", "How many.");
    public static ExchangeColumn Beyond { get; } = new("Apertures beyond the intermediate deviation", null, "countBeyond", "How many, where somebody counted.");

    private static ExchangeColumn[] Asked { get; } = [Document, MeasuredOn, Largest, Count];

    private static ExchangeColumn[] Measurement { get; } = [Kind, .. Asked, Mean, MeanWarp, MeanWeft, Wire, Deviation, Uncertainty, Beyond];

    public static IReadOnlyList<ExchangeColumn> All { get; } =
        [Serial, Aperture, Frame, Standard, Place, EveryDays, EveryRuns, Scatter, Kind, Document, MeasuredOn, Mean, Largest, Deviation, MeanWarp, MeanWeft, Wire, Uncertainty, Count, Beyond, ReferenceDays, ReferenceRuns, .. PlateColumns.Plain, .. LifeColumns.All, .. SieveTelling.Columns];

    /// <summary>Reads a row.</summary>
    public static RegisterRow Read(RowPlace place, RowReader cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var (serial, aperture, frame, standard, where) = (cells.Text(Serial), cells.Aperture(Aperture), cells.Whole(Frame), cells.Text(Standard), cells.Text(Place));
        var (plan, measured, plate, life) = (Plan(cells), Measured(cells), PlateColumns.Read(cells), cells.Life());
        return cells.Findings.Count > 0
            ? new UnreadableRow(place, RegisterKind.TestSieves, serial, cells.Findings)
            : new SieveRow(place, new SieveCard(serial, aperture!.Value, frame!.Value, standard, where) { Plate = plate }, plan, measured, life);
    }

    private static SieveCarePlan? Plan(RowReader cells)
    {
        var (days, runs, scatter) = (cells.Whole(EveryDays), cells.Whole(EveryRuns), cells.Mass(Scatter));
        var (referenceDays, referenceRuns) = (cells.Whole(ReferenceDays), cells.Whole(ReferenceRuns));
        return days is null && runs is null && scatter is null && referenceDays is null && referenceRuns is null ? null
            : new SieveCarePlan(days ?? SieveCarePlan.UsualDays, runs, scatter ?? SieveCarePlan.UsualTareScatter) { ReferenceEveryDays = referenceDays, ReferenceEveryRuns = referenceRuns };
    }

    private static ApertureCard? Measured(RowReader cells)
    {
        if (!cells.HasAny(Measurement))
        {
            return null;
        }

        cells.RequireTogether("A measurement", Asked);
        var kind = cells.Choice(Kind, Kinds, one => one.Words()) ?? EquipmentDocumentKind.InspectionCertificate;
        var (document, on, mean, largest, count) = (cells.Text(Document), cells.Day(MeasuredOn), cells.Aperture(Mean), cells.Aperture(Largest), cells.Whole(Count));
        var (deviation, uncertainty, beyond) = (cells.Aperture(Deviation), cells.Aperture(Uncertainty), cells.Whole(Beyond));
        var (warp, weft, wire) = (cells.Aperture(MeanWarp), cells.Aperture(MeanWeft), cells.Number(Wire));
        return cells.Findings.Count > 0 ? null : new ApertureCard
        {
            Kind = kind, Document = document, MeasuredOn = on!.Value, Mean = mean, MeanWarp = warp, MeanWeft = weft, WireMicrometres = wire, Largest = largest!.Value, Count = count!.Value, Deviation = deviation, ExpandedUncertainty = uncertainty, CountBeyond = beyond,
        };
    }
}

using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Exchange;

/// <summary>What an export tells of a test sieve.</summary>
internal static class SieveTelling
{
    public static ExchangeColumn E11 { get; } = Told("ASTM E11 designation", "e11");
    public static ExchangeColumn Edition { get; } = Told("Tolerances of", "edition");
    public static ExchangeColumn Conforms { get; } = Told("Verdict of the measurement", "conforms");
    public static ExchangeColumn ListOn { get; } = Told("Last inspected by the list on", "listOn");
    public static ExchangeColumn Faults { get; } = Told("Faults found", "faults");
    public static ExchangeColumn ReferenceOn { get; } = Told("Last reference check on", "referenceOn");
    public static ExchangeColumn Material { get; } = Told("Reference material", "material");
    public static ExchangeColumn Effective { get; } = Told("Effective aperture", "effective", "µm");
    public static ExchangeColumn EffectiveUncertainty { get; } = Told("Standard uncertainty of the effective aperture", "effectiveUncertainty", "µm");
    public static ExchangeColumn Passed { get; } = Told("Verdict of the reference check", "passed");
    public static ExchangeColumn Signal { get; } = Told("What its empty mass says", "signal");

    /// <summary>The columns that only an export writes.</summary>
    public static IReadOnlyList<ExchangeColumn> Columns { get; } = [E11, Edition, Conforms, ListOn, Faults, ReferenceOn, Material, Effective, EffectiveUncertainty, Passed, Signal, TellingCells.DueWords];

    /// <summary>The cells of a sieve.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(SieveEntry entry, TellingCells told)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var (sieve, inspected, seen) = (entry.Sieve, entry.Inspected, entry.Checked);
        var cells = told.With(sieve, new Dictionary<ExchangeColumn, TableCell>
        {
            [SieveColumns.Serial] = TableCell.Of(sieve.Serial), [SieveColumns.Aperture] = TableCell.Of(sieve.Aperture.Micrometres), [SieveColumns.Frame] = TableCell.Of(sieve.FrameMillimetres),
            [SieveColumns.Standard] = TableCell.Of(sieve.Standard), [SieveColumns.Place] = TableCell.Of(sieve.Place), [SieveColumns.EveryDays] = TableCell.Of(sieve.InspectEveryDays),
            [SieveColumns.EveryRuns] = TableCell.Of(sieve.InspectEveryRuns), [SieveColumns.Scatter] = TableCell.Of(sieve.TareScatter.Micrograms / 1_000m),
            [SieveColumns.ReferenceDays] = TableCell.Of(sieve.ReferenceEveryDays), [SieveColumns.ReferenceRuns] = TableCell.Of(sieve.ReferenceEveryRuns),
            [E11] = TableCell.Of(SieveWords.E11(sieve.Aperture)), [Signal] = TableCell.Of(sieve.TareSignal),
            [ListOn] = told.Day(inspected?.At), [Faults] = TableCell.Of(inspected?.Faults.Listed()),
            [ReferenceOn] = told.Day(seen?.At), [Material] = TableCell.Of(seen?.MaterialLabel), [Effective] = TableCell.Of(seen?.Effective.Micrometres),
            [EffectiveUncertainty] = TableCell.Of(seen?.Uncertainty.Micrometres), [Passed] = TableCell.Of(seen is null ? null : seen.Passed ? "passed" : "failed"),
        });
        return entry.Measured is { } measured ? With(measured, cells) : cells;
    }

    private static Dictionary<ExchangeColumn, TableCell> With(ApertureMeasurement measured, Dictionary<ExchangeColumn, TableCell> cells)
    {
        cells[SieveColumns.Kind] = TableCell.Of(measured.Kind.Words());
        cells[SieveColumns.Document] = TableCell.Of(measured.Document);
        cells[SieveColumns.MeasuredOn] = TableCell.Of(measured.MeasuredOn);
        cells[SieveColumns.Mean] = TableCell.Of(measured.Mean.Micrometres);
        cells[SieveColumns.MeanWarp] = TableCell.Of(measured.MeanWarp?.Micrometres);
        cells[SieveColumns.MeanWeft] = TableCell.Of(measured.MeanWeft?.Micrometres);
        cells[SieveColumns.Wire] = TableCell.Of(measured.WireNanometres / 1_000m);
        cells[SieveColumns.Largest] = TableCell.Of(measured.Largest.Micrometres);
        cells[SieveColumns.Deviation] = TableCell.Of(measured.Deviation?.Micrometres);
        cells[SieveColumns.Uncertainty] = TableCell.Of(measured.ExpandedUncertainty?.Micrometres);
        cells[SieveColumns.Count] = TableCell.Of(measured.Count);
        cells[SieveColumns.Beyond] = TableCell.Of(measured.CountBeyond);
        cells[Edition] = TableCell.Of(measured.Edition);
        cells[Conforms] = TableCell.Of(measured.Conforms switch { true => "conforms", false => "does not conform", null => "not everything was determined" });
        return cells;
    }

    private static ExchangeColumn Told(string name, string member, string? unit = null) => new(name, unit, member, string.Empty) { IsRead = false };
}

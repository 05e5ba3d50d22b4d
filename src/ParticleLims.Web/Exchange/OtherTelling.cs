using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Web.Exchange;

/// <summary>What an export tells of the equipment that no import brings: sieving units and reference materials.</summary>
internal static class OtherTelling
{
    private static readonly ExchangeColumn Serial = Told("Serial number");
    private static readonly ExchangeColumn Name = Told("Name");
    private static readonly ExchangeColumn Place = Told("Place");
    private static readonly ExchangeColumn Procedure = Told("Kind");
    private static readonly ExchangeColumn GaugeHost = Told("Host of the gauge");
    private static readonly ExchangeColumn GaugePort = Told("Port of the gauge");
    private static readonly ExchangeColumn GaugeUnit = Told("Unit of the gauge");
    private static readonly ExchangeColumn Batch = Told("Batch");
    private static readonly ExchangeColumn Certificate = Told("Certificate number");
    private static readonly ExchangeColumn GoodUntil = Told("Certificate counts until");
    private static readonly ExchangeColumn Points = Told("Certificate's curve: aperture (µm), passing (%), standard uncertainty (%)");

    /// <summary>The columns of sieving units.</summary>
    public static IReadOnlyList<ExchangeColumn> UnitColumns { get; } = [Serial, Name, Place, Procedure, GaugeHost, GaugePort, GaugeUnit, .. PlateColumns.WithSoftware, .. LifeColumns.All, TellingCells.DueWords];

    /// <summary>The columns of reference materials.</summary>
    public static IReadOnlyList<ExchangeColumn> MaterialColumns { get; } = [Name, Batch, Certificate, GoodUntil, Points];

    /// <summary>The cells of a sieving unit.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(SievingUnit unit, TellingCells told)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return told.With(unit, new Dictionary<ExchangeColumn, TableCell>
        {
            [Serial] = TableCell.Of(unit.Serial), [Name] = TableCell.Of(unit.Name), [Place] = TableCell.Of(unit.Place), [Procedure] = TableCell.Of(unit.IsAirJet ? "air jet" : "shaker"),
            [GaugeHost] = TableCell.Of(unit.GaugeHost), [GaugePort] = TableCell.Of(unit.GaugePort), [GaugeUnit] = TableCell.Of(unit.GaugeHost is null ? null : unit.GaugeUnit.Symbol()),
        });
    }

    /// <summary>The cells of a reference material.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(ReferenceMaterial material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return new Dictionary<ExchangeColumn, TableCell>
        {
            [Name] = TableCell.Of(material.Name), [Batch] = TableCell.Of(material.Batch), [Certificate] = TableCell.Of(material.Certificate), [GoodUntil] = TableCell.Of(material.GoodUntil),
            [Points] = TableCell.Of(string.Join("; ", material.Points.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))),
        };
    }

    private static ExchangeColumn Told(string name) => new(name, null, name, string.Empty) { IsRead = false, IsText = true };
}

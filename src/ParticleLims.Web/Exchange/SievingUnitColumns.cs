using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Web.Exchange;

/// <summary>The columns of sieving units.</summary>
internal static class SievingUnitColumns
{
    private static readonly PressureUnit[] Units = Enum.GetValues<PressureUnit>();
    private static readonly bool[] Kinds = [true, false];

    public static ExchangeColumn Serial { get; } = new("Serial number", null, "serial", "As on its plate.") { Required = true, IsText = true, Longest = 60 };
    public static ExchangeColumn Name { get; } = new("Name", null, "name", "As people call it: Air jet 1.") { Required = true, IsText = true, Longest = 60 };
    public static ExchangeColumn Place { get; } = new("Place", null, "place", "Where it stands.") { Required = true, IsText = true };
    public static ExchangeColumn Kind { get; } = new("Kind", null, "isAirJet", "air jet or shaker.") { Required = true };
    public static ExchangeColumn GaugeHost { get; } = new("Host of the gauge", null, "gaugeHost", "Name or address on the network; empty where the pressure is read by hand.") { IsText = true, Longest = 255 };
    public static ExchangeColumn GaugePort { get; } = new("Port of the gauge", null, "gaugePort", "1 to 65535.");
    public static ExchangeColumn GaugeUnit { get; } = new("Unit of the gauge", null, "gaugeUnit", "For lines that name none; kPa where it is empty.");

    public static IReadOnlyList<ExchangeColumn> All { get; } = [Serial, Name, Place, Kind, GaugeHost, GaugePort, GaugeUnit, .. PlateColumns.WithSoftware, .. LifeColumns.All, TellingCells.DueWords];

    /// <summary>Reads a row.</summary>
    public static RegisterRow Read(RowPlace place, RowReader cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var (serial, name, where, isAirJet) = (cells.Text(Serial), cells.Text(Name), cells.Text(Place), cells.Choice(Kind, Kinds, KindWords));
        var (gauge, plate, life) = (GaugeOf(cells), PlateColumns.Read(cells), cells.Life());
        return cells.Findings.Count > 0
            ? new UnreadableRow(place, RegisterKind.SievingUnits, serial, cells.Findings)
            : new UnitRow(place, new SievingUnitCard(serial, name, where, isAirJet!.Value, gauge) { Plate = plate }, life);
    }

    /// <summary>The cells of a unit.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(SievingUnit unit, TellingCells told)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return told.With(unit, new Dictionary<ExchangeColumn, TableCell>
        {
            [Serial] = TableCell.Of(unit.Serial), [Name] = TableCell.Of(unit.Name), [Place] = TableCell.Of(unit.Place), [Kind] = TableCell.Of(KindWords(unit.IsAirJet)),
            [GaugeHost] = TableCell.Of(unit.GaugeHost), [GaugePort] = TableCell.Of(unit.GaugePort), [GaugeUnit] = TableCell.Of(unit.GaugeHost is null ? null : unit.GaugeUnit.Symbol()),
        });
    }

    private static string KindWords(bool isAirJet) => isAirJet ? "air jet" : "shaker";

    private static GaugeCard? GaugeOf(RowReader cells)
    {
        if (!cells.HasAny(GaugeHost, GaugePort))
        {
            return null;
        }

        cells.RequireTogether("A gauge", GaugeHost, GaugePort);
        return new GaugeCard(cells.Text(GaugeHost), cells.Whole(GaugePort) ?? 0, cells.Choice(GaugeUnit, Units, unit => unit.Symbol()) ?? PressureUnit.Kilopascal);
    }
}

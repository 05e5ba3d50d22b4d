using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Web.Balances;

namespace ParticleLims.Web.Exchange;

/// <summary>The columns of balances.</summary>
internal static class BalanceColumns
{
    public static ExchangeColumn Serial { get; } = new("Serial number", null, "serial", "As on its plate.") { Required = true, IsText = true, Longest = 60 };
    public static ExchangeColumn Name { get; } = new("Name", null, "name", "As people call it.") { Required = true, IsText = true, Longest = 80 };
    public static ExchangeColumn Place { get; } = new("Place", null, "place", "Where it stands.") { Required = true, IsText = true };
    public static ExchangeColumn Readability { get; } = new("Readability", "g", "readability", "The smallest step of its display.") { Required = true };
    public static ExchangeColumn Capacity { get; } = new("Capacity", "g", "capacity", "The largest load.") { Required = true };
    public static ExchangeColumn Repeatability { get; } = new("Repeatability (s)", "g", "repeatability", "Standard deviation of repeated weighings, from its calibration.") { Required = true };
    public static ExchangeColumn CheckWeight { get; } = new("Check weight", "g", "checkWeight", "What lies on the pan at the daily check.") { Required = true };
    public static ExchangeColumn Tolerance { get; } = new("Allowed off by", "g", "checkTolerance", "At the daily check.") { Required = true };
    public static ExchangeColumn Way { get; } = new("Way in", null, "wayIn", "network, server's port, terminal's port, or typed by the balance.") { Required = true };
    public static ExchangeColumn Host { get; } = new("Host", null, "host", "Network: name or address.") { IsText = true };
    public static ExchangeColumn Port { get; } = new("Port", null, "port", "Network: 1 to 65535.");
    public static ExchangeColumn Device { get; } = new("Serial port", null, "device", "Server's port: /dev/ttyUSB0, COM3.") { IsText = true };
    public static ExchangeColumn Baud { get; } = new("Baud rate", null, "baudRate", "Both serial ports; 9600 where it is empty.");
    public static ExchangeColumn DataBits { get; } = new("Data bits", null, "dataBits", "7 or 8; 8 where it is empty.");
    public static ExchangeColumn Parity { get; } = new("Parity", null, "parity", "none, even or odd; none where it is empty.");
    public static ExchangeColumn StopBits { get; } = new("Stop bits", null, "stopBits", "1 or 2; 1 where it is empty.");
    public static ExchangeColumn Format { get; } = new("Reading format", null, "readingFormat", "The name of one that is kept under Equipment, Reading formats.") { Required = true, IsText = true };

    public static ExchangeColumn RepeatDays { get; } = new("Test the repeatability after", "days", "repeatEveryDays", "1 to 1100; on no set day where it is empty.");

    public static IReadOnlyList<ExchangeColumn> All { get; } =
        [Serial, Name, Place, Readability, Capacity, Repeatability, CheckWeight, Tolerance, Way, Host, Port, Device, Baud, DataBits, Parity, StopBits, Format, RepeatDays, .. PlateColumns.WithSoftware, .. LifeColumns.All, .. BalanceTelling.Columns];

    /// <summary>Reads a row.</summary>
    public static RegisterRow Read(RowPlace place, RowReader cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var (serial, name, where, format) = (cells.Text(Serial), cells.Text(Name), cells.Text(Place), cells.Text(Format));
        var (readability, capacity, repeatability, weight, tolerance) = (cells.Mass(Readability), cells.Mass(Capacity), cells.Mass(Repeatability), cells.Mass(CheckWeight), cells.Mass(Tolerance));
        var (way, repeat, plate, life) = (WayOf(cells), cells.Whole(RepeatDays), PlateColumns.Read(cells), cells.Life());
        return cells.Findings.Count > 0
            ? new UnreadableRow(place, RegisterKind.Balances, serial, cells.Findings)
            : new BalanceRow(place, new BalanceCard(serial, name, where, readability!.Value, capacity!.Value, repeatability!.Value, way, format, weight!.Value, tolerance!.Value) { Plate = plate, RepeatEveryDays = repeat }, life);
    }

    private static BalanceWay WayOf(RowReader cells)
    {
        var way = cells.Choice(Way, BalanceWaySheet.Ways, one => one.Words()) ?? WayIn.Network;
        var (host, port, device) = (cells.Text(Host), cells.Whole(Port), cells.Text(Device));
        var (baud, data, parity, stop) = (cells.Whole(Baud), cells.Whole(DataBits), cells.Choice(Parity, BalanceWaySheet.Parities, BalanceWords.Of), cells.Whole(StopBits));
        return new BalanceWay(way, host, port ?? 0, device, baud ?? 9_600, data ?? 8, parity ?? LineParity.None, stop ?? 1);
    }
}

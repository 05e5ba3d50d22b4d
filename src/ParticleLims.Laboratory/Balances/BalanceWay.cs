using System.Text.RegularExpressions;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>How a serial line checks each character.</summary>
public enum LineParity
{
    /// <summary>It does not.</summary>
    None,

    /// <summary>The ones are even in number.</summary>
    Even,

    /// <summary>The ones are odd in number.</summary>
    Odd,
}

/// <summary>Where a balance's lines come from; what does not belong to its way in is kept as it was and not used.</summary>
/// <param name="WayIn">The way.</param>
/// <param name="Host">Network: host name or IP address.</param>
/// <param name="Port">Network: TCP port, 1 to 65 535.</param>
/// <param name="Device">Server's port: its name, as <c>/dev/ttyUSB0</c> or <c>COM3</c>.</param>
/// <param name="BaudRate">Both ports: symbols a second, 110 to 921 600.</param>
/// <param name="DataBits">Both ports: 7 or 8.</param>
/// <param name="Parity">Both ports.</param>
/// <param name="StopBits">Both ports: 1 or 2.</param>
public sealed partial record BalanceWay(WayIn WayIn, string Host = "", int Port = 0, string Device = "", int BaudRate = 9_600, int DataBits = 8, LineParity Parity = LineParity.None, int StopBits = 1)
{
    /// <summary>A balance on the network.</summary>
    public static BalanceWay OnNetwork(string host, int port) => new(WayIn.Network, host, port);

    /// <summary>Refuses, in words, a way by which nothing could come in.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal void Check()
    {
        switch (WayIn)
        {
            case WayIn.Network:
                Refuse(string.IsNullOrWhiteSpace(Host) || Port is < 1 or > 65535, "port", "A balance answers at a host, and its port lies between 1 and 65535.", "port");
                break;
            case WayIn.ServerPort:
                Refuse(Device.Length > 120 || !PortName().IsMatch(Device.Trim()), "device", "Name the server's serial port as the system does, for example /dev/ttyUSB0, /dev/serial/by-id/… or COM3.", "device");
                CheckLine();
                break;
            case WayIn.TerminalPort:
                CheckLine();
                break;
            case WayIn.Keyboard:
                break;
            default:
                throw new RefusedException("way-in", "A balance's readings come in over the network, at a port of the server, at a port of the terminal, or typed as keys.", "wayIn");
        }
    }

    private void CheckLine()
    {
        Refuse(BaudRate is < 110 or > 921_600, "baud-rate", "The baud rate lies between 110 and 921600; the balance's own menu tells which it is.", "baudRate");
        Refuse(DataBits is not (7 or 8) || StopBits is not (1 or 2) || !Enum.IsDefined(Parity), "line-settings", "A serial line has 7 or 8 data bits, 1 or 2 stop bits, and no, even or odd parity.", "dataBits");
    }

    private static void Refuse(bool when, string code, string words, string member)
    {
        if (when)
        {
            throw new RefusedException(code, words, member);
        }
    }

    // Only names of devices: whoever keeps the equipment must not make the program open a file.
    [GeneratedRegex(@"\A(/dev(/[A-Za-z0-9_:+@-][A-Za-z0-9._:+@-]*)+|COM[0-9]{1,3})\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex PortName();
}

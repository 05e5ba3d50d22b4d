using System.Globalization;
using ParticleLims.Laboratory.Balances;

namespace ParticleLims.Web.Balances;

/// <summary>A balance's way in while it is being typed.</summary>
public sealed class BalanceWaySheet
{
    /// <summary>The ways a balance has; a mass keyed by hand comes from none.</summary>
    public static IReadOnlyList<WayIn> Ways { get; } = [WayIn.Network, WayIn.ServerPort, WayIn.TerminalPort, WayIn.Keyboard];

    /// <summary>The parities in the order of the list.</summary>
    public static IReadOnlyList<LineParity> Parities { get; } = [LineParity.None, LineParity.Even, LineParity.Odd];

    /// <summary>The numbers of data bits and of stop bits.</summary>
    public static IReadOnlyList<int> DataBitChoices { get; } = [8, 7];

    /// <summary>The numbers of stop bits.</summary>
    public static IReadOnlyList<int> StopBitChoices { get; } = [1, 2];

    /// <summary>An empty sheet for the network.</summary>
    public BalanceWaySheet()
        : this(new BalanceWay(WayIn.Network))
    {
    }

    /// <summary>A sheet with what is registered.</summary>
    public BalanceWaySheet(BalanceWay way)
    {
        ArgumentNullException.ThrowIfNull(way);
        (Way, Host, Port, Device, BaudRate) = (Ways.Index().First(one => one.Item == way.WayIn).Index, way.Host, way.Port == 0 ? null : way.Port, way.Device, way.BaudRate);
        Parity = Parities.Index().First(one => one.Item == way.Parity).Index;
        (DataBits, StopBits) = (way.DataBits == 7 ? 1 : 0, way.StopBits == 2 ? 1 : 0);
    }

    /// <summary>The place of the way in its list; so also the other choices.</summary>
    public int Way { get; set; }
    public int Parity { get; set; }
    public int DataBits { get; set; }
    public int StopBits { get; set; }
    public string Host { get; set; }
    public decimal? Port { get; set; }
    public string Device { get; set; }
    public decimal? BaudRate { get; set; }

    /// <summary>The way that is chosen.</summary>
    public WayIn Chosen => Ways[Way];

    /// <summary>The way as it stands; the laboratory checks it.</summary>
    public BalanceWay Read() => new(Chosen, Host, (int)(Port ?? 0), Device, (int)(BaudRate ?? 0), DataBitChoices[DataBits], Parities[Parity], StopBitChoices[StopBits]);

    /// <summary>What the balance has to be set to for a way, in words.</summary>
    public static string Help(WayIn way) => way switch
    {
        WayIn.Network => "The balance itself, or a small converter before it, answers at an address of the network.",
        WayIn.ServerPort => "The balance's cable ends at the server.",
        WayIn.TerminalPort => "The balance's cable ends at the terminal; its browser reads it. It takes a Chromium browser and a secure connection (https).",
        WayIn.Keyboard => "The balance is plugged in at the terminal like a keyboard and types each line, with Enter at its end.",
        _ => string.Create(CultureInfo.InvariantCulture, $"{way}"),
    };
}

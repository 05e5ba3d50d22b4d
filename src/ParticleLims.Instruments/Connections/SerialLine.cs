namespace ParticleLims.Instruments.Connections;

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

/// <summary>How a serial line is set, the same on both of its ends. Without handshake: a balance sends little.</summary>
/// <param name="BaudRate">Symbols a second, 110 to 921 600.</param>
/// <param name="DataBits">Bits of a character, 7 or 8.</param>
/// <param name="Parity">The check of each character.</param>
/// <param name="StopBits">Stop bits, 1 or 2.</param>
public sealed record SerialLine(int BaudRate = 9_600, int DataBits = 8, LineParity Parity = LineParity.None, int StopBits = 1)
{
    /// <summary>What is wrong with these settings, in words; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems()
    {
        List<string> problems = [];
        if (BaudRate is < 110 or > 921_600)
        {
            problems.Add("The baud rate lies between 110 and 921600.");
        }

        if (DataBits is not (7 or 8) || StopBits is not (1 or 2) || !Enum.IsDefined(Parity))
        {
            problems.Add("A serial line has 7 or 8 data bits, 1 or 2 stop bits, and no, even or odd parity.");
        }

        return problems;
    }
}

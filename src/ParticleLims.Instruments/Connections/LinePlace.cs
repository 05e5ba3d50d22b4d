namespace ParticleLims.Instruments.Connections;

/// <summary>Where the server finds a balance's lines: on the network or at one of its own ports.</summary>
public abstract record LinePlace
{
    /// <summary>The balance at this place, as messages name it.</summary>
    public abstract string Words { get; }

    /// <summary>What is wrong with this place, in words for the administrator; empty when it can be tried.</summary>
    public abstract IReadOnlyList<string> Problems();

    /// <summary>Prepares one attempt to open it.</summary>
    internal abstract LineOpening Opening(BalanceConnectionOptions options, TimeProvider clock);
}

/// <summary>A balance, or a converter before it, that answers on the network.</summary>
/// <param name="Host">Host name or IP address.</param>
/// <param name="Port">TCP port, 1 to 65 535.</param>
public sealed record NetworkPlace(string Host, int Port) : LinePlace
{
    /// <inheritdoc />
    public override string Words => FormattableString.Invariant($"The balance at {Host}:{Port}");

    /// <inheritdoc />
    public override IReadOnlyList<string> Problems()
    {
        List<string> problems = [];
        if (string.IsNullOrWhiteSpace(Host))
        {
            problems.Add("The balance needs a host name or an IP address.");
        }

        if (Port is < 1 or > 65_535)
        {
            problems.Add(FormattableString.Invariant($"The port {Port} is not between 1 and 65535."));
        }

        return problems;
    }

    internal override LineOpening Opening(BalanceConnectionOptions options, TimeProvider clock) => new NetworkOpening(this, options, clock);
}

/// <summary>A balance at a serial port of the server.</summary>
/// <param name="Device">The port's name: <c>/dev/ttyUSB0</c>, <c>COM3</c>.</param>
/// <param name="Line">How the line is set.</param>
public sealed record SerialPlace(string Device, SerialLine Line) : LinePlace
{
    /// <inheritdoc />
    public override string Words => $"The balance at the server's port {Device}";

    /// <inheritdoc />
    public override IReadOnlyList<string> Problems() =>
        string.IsNullOrWhiteSpace(Device) ? ["The balance needs the name of a serial port.", .. Line.Problems()] : Line.Problems();

    internal override LineOpening Opening(BalanceConnectionOptions options, TimeProvider clock) => new SerialOpening(this, options, clock);
}

using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>Where a balance answers and how it writes.</summary>
/// <param name="Place">Where its lines come from.</param>
/// <param name="Format">How it writes a reading.</param>
/// <param name="ExpectedSerial">The serial number that its lines must carry; null to accept any.</param>
public sealed record BalanceAddress(LinePlace Place, ReadingFormat Format, string? ExpectedSerial = null)
{
    /// <summary>A balance on the network.</summary>
    /// <param name="host">Host name or IP address.</param>
    /// <param name="port">TCP port, 1 to 65 535.</param>
    /// <param name="format">How it writes a reading.</param>
    /// <param name="expectedSerial">The serial number that its lines must carry; null to accept any.</param>
    public BalanceAddress(string host, int port, ReadingFormat format, string? expectedSerial = null)
        : this(new NetworkPlace(host, port), format, expectedSerial)
    {
    }

    /// <summary>What is wrong with this address, in words for the administrator; empty when it can be used.</summary>
    public IReadOnlyList<string> Problems() => [.. Format.Problems(), .. Place.Problems()];

    internal static BalanceAddress Checked(BalanceAddress address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return address.Problems() is { Count: > 0 } problems
            ? throw new ArgumentException(string.Join(' ', problems), nameof(address))
            : address;
    }
}

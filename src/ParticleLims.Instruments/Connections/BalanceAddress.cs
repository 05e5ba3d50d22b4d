using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>Where a balance answers and how it writes.</summary>
/// <param name="Host">Host name or IP address.</param>
/// <param name="Port">TCP port, 1 to 65 535.</param>
/// <param name="Format">How it writes a reading.</param>
/// <param name="ExpectedSerial">The serial number that its lines must carry; null to accept any.</param>
public sealed record BalanceAddress(string Host, int Port, ReadingFormat Format, string? ExpectedSerial = null)
{
    /// <summary>What is wrong with this address, in words for the administrator; empty when it can be used.</summary>
    public IReadOnlyList<string> Problems()
    {
        List<string> problems = [.. Format.Problems()];
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

    internal static BalanceAddress Checked(BalanceAddress address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return address.Problems() is { Count: > 0 } problems
            ? throw new ArgumentException(string.Join(' ', problems), nameof(address))
            : address;
    }
}

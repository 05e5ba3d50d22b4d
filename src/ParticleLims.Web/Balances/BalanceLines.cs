using ParticleLims.Instruments.Connections;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>The lines of the laboratory's balances. One link for each balance, however many screens look at it.</summary>
public sealed class BalanceLines(BalanceConnections connections, KnownFormats formats)
{
    /// <summary>The link to a balance as it is registered now; null when its address or its reading format cannot be used.</summary>
    public BalanceConnection? Of(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        if (formats.Find(balance.ReadingFormat) is not { } format || new BalanceAddress(balance.Host, balance.Port, format).Problems().Count > 0)
        {
            return null;
        }

        // A line with another serial number is refused: another balance answers at this address.
        return connections.EnsureConnected(balance.Id, balance.Host, balance.Port, format, balance.Serial);
    }

    /// <summary>The link of a balance that is listened to, as it stands; null when it is not.</summary>
    public BalanceState? StateOf(Guid balanceId) => connections.Get(balanceId)?.State;

    /// <summary>Ends the links to all balances but these.</summary>
    public async Task KeepOnlyAsync(IReadOnlySet<Guid> balances)
    {
        foreach (var gone in connections.States().Keys.Where(id => !balances.Contains(id)))
        {
            await connections.DisconnectAsync(gone);
        }
    }
}

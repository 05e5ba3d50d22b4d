using ParticleLims.Instruments.Connections;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;
using LineParity = ParticleLims.Laboratory.Balances.LineParity;
using SerialParity = ParticleLims.Instruments.Connections.LineParity;

namespace ParticleLims.Web.Balances;

/// <summary>The lines of the laboratory's balances. One link for each balance, however many screens look at it.</summary>
public sealed class BalanceLines(BalanceConnections connections, KnownFormats formats)
{
    /// <summary>
    /// The link to a balance that the server reaches itself, as it is registered now; null when its lines come in at a terminal, or its address
    /// or its reading format cannot be used.
    /// </summary>
    public BalanceConnection? Of(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        if (formats.Find(balance.ReadingFormat) is not { } format || PlaceOf(balance) is not { } place)
        {
            return null;
        }

        // A line with another serial number is refused: another balance answers at this address.
        var address = new BalanceAddress(place, format, balance.Serial);
        return address.Problems().Count > 0 ? null : connections.EnsureConnected(balance.Id, address);
    }

    /// <summary>Ends the links to all balances but these.</summary>
    public async Task KeepOnlyAsync(IReadOnlySet<Guid> balances)
    {
        foreach (var gone in connections.States().Keys.Where(id => !balances.Contains(id)))
        {
            await connections.DisconnectAsync(gone);
        }
    }

    private static LinePlace? PlaceOf(Balance balance) => balance.WayIn switch
    {
        WayIn.Network => new NetworkPlace(balance.Host, balance.Port),
        WayIn.ServerPort => new SerialPlace(balance.Device, LineOf(balance)),
        _ => null,
    };

    private static SerialLine LineOf(Balance balance) =>
        new(balance.BaudRate, balance.DataBits, balance.Parity switch { LineParity.Even => SerialParity.Even, LineParity.Odd => SerialParity.Odd, _ => SerialParity.None }, balance.StopBits);
}

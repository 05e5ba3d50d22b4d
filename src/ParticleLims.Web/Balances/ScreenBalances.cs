using ParticleLims.Instruments.Connections;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>
/// The balances as one screen reaches them: those that the server reaches are shared by all screens, those whose lines come in at the terminal
/// are this screen's own, so that no terminal feeds the run of another. One for each screen.
/// </summary>
public sealed class ScreenBalances(BalanceLines lines, KnownFormats formats, RefusedLines refused, TimeProvider clock) : IDisposable
{
    private readonly Dictionary<Guid, Fed> fed = [];

    /// <summary>The lines of a balance as it is registered now; null when its address or its reading format cannot be used.</summary>
    public ILineSource? Of(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        return IsFed(balance) ? FedBy(balance) : lines.Of(balance);
    }

    /// <summary>The link that this screen feeds; null for a balance that the server reaches, or whose reading format cannot be used.</summary>
    public FedLink? FedBy(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        if (!IsFed(balance) || formats.Find(balance.ReadingFormat) is not { } format || format.Problems().Count > 0)
        {
            return null;
        }

        var wanted = new Fed(balance.Way, balance.Serial, new FedLink(format, balance.Serial, clock));
        if (fed.TryGetValue(balance.Id, out var known) && known.Way == wanted.Way && known.Serial == wanted.Serial && known.Link.Format == format)
        {
            wanted.Link.Dispose();
            return known.Link;
        }

        known?.Link.Dispose();
        fed[balance.Id] = wanted;
        refused.Watch(balance.Id, balance.Label, wanted.Link);
        return wanted.Link;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        foreach (var one in fed.Values)
        {
            one.Link.Dispose();
        }
    }

    private static bool IsFed(Balance balance) => balance.WayIn is WayIn.TerminalPort or WayIn.Keyboard;

    private sealed record Fed(BalanceWay Way, string Serial, FedLink Link);
}

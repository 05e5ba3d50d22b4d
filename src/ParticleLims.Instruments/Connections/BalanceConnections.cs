namespace ParticleLims.Instruments.Connections;

/// <summary>The links to all balances of the laboratory, one for each balance however many pages look at it. Thread-safe.</summary>
public sealed class BalanceConnections(TimeProvider clock, BalanceConnectionOptions? options = null) : IAsyncDisposable
{
    private readonly Dictionary<Guid, BalanceConnection> _all = [];
    private readonly Lock _gate = new();
    private bool _disposed;

    /// <summary>
    /// The connection of a balance, made if there is none and moved if the address or the format has changed; all who listen
    /// stay with it.
    /// </summary>
    /// <exception cref="ArgumentException">The address cannot work.</exception>
    public BalanceConnection EnsureConnected(Guid balanceId, BalanceAddress address)
    {
        lock (_gate)
        {
            ObjectDisposedException.ThrowIf(_disposed, this);
            if (!_all.TryGetValue(balanceId, out var connection))
            {
                connection = new BalanceConnection(address, clock, options);
                _all.Add(balanceId, connection);
            }

            connection.MoveTo(address);
            return connection;
        }
    }

    /// <summary>The connection of a balance, null if there is none.</summary>
    public BalanceConnection? Get(Guid balanceId)
    {
        lock (_gate)
        {
            return _all.GetValueOrDefault(balanceId);
        }
    }

    /// <summary>What is known of each connected balance now.</summary>
    public IReadOnlyDictionary<Guid, BalanceState> States()
    {
        lock (_gate)
        {
            return _all.ToDictionary(one => one.Key, one => one.Value.State);
        }
    }

    /// <summary>Ends the connection of a balance, as when it goes out of service.</summary>
    public async Task DisconnectAsync(Guid balanceId)
    {
        BalanceConnection? connection;
        lock (_gate)
        {
            _all.Remove(balanceId, out connection);
        }

        if (connection is not null)
        {
            await connection.DisposeAsync();
        }
    }

    /// <summary>Ends all connections.</summary>
    public async ValueTask DisposeAsync()
    {
        BalanceConnection[] all;
        lock (_gate)
        {
            _disposed = true;
            all = [.. _all.Values];
            _all.Clear();
        }

        await Task.WhenAll(all.Select(connection => connection.DisposeAsync().AsTask()));
    }
}

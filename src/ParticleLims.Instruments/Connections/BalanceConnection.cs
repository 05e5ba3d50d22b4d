using System.Runtime.CompilerServices;
using System.Threading.Channels;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>
/// Keeps the link to one balance on the network or at a port of the server: connects, reads, and after a failure connects again by itself, waiting
/// longer each time. Any number of pages may listen at once. Thread-safe.
/// </summary>
public sealed class BalanceConnection : ILineSource, IAsyncDisposable
{
    private const int LinesHeldForASlowReader = 256;

    private readonly BalanceConnectionOptions _options;
    private readonly TimeProvider _clock;
    private readonly Subscribers<BalanceState> _subscribers;
    private readonly CancellationTokenSource _ending = new();
    private readonly CancellationToken _ended;
    private readonly Lock _gate = new();
    private readonly LineMemory _recent = new();
    private readonly Task _running;
    private CancellationTokenSource _moved = new();
    private BalanceAddress _address;
    private volatile BalanceState _state = new() { Link = BalanceLink.Connecting };
    private int _disposed;

    /// <summary>Starts to connect at once, in the background.</summary>
    /// <exception cref="ArgumentException">The address cannot work.</exception>
    public BalanceConnection(BalanceAddress address, TimeProvider clock, BalanceConnectionOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(clock);
        _address = BalanceAddress.Checked(address);
        _clock = clock;
        _ended = _ending.Token;
        _options = options ?? new BalanceConnectionOptions();
        _subscribers = new Subscribers<BalanceState>(_options.SubscriberFailed);
        _running = Task.Run(RunAsync);
    }

    /// <summary>Where the balance answers.</summary>
    public BalanceAddress Address
    {
        get
        {
            lock (_gate)
            {
                return _address;
            }
        }
    }

    /// <inheritdoc />
    public BalanceState State => _state;

    /// <inheritdoc />
    public ReadingFormat Format => Address.Format;

    /// <inheritdoc />
    public IReadOnlyList<BalanceLine> RecentLines => _recent.NewestFirst;

    /// <inheritdoc />
    public IDisposable Subscribe(Action<BalanceState> onChange)
    {
        ArgumentNullException.ThrowIfNull(onChange);
        return _subscribers.Add(onChange);
    }

    /// <summary>
    /// The lines from now on, read or refused, until cancelled or the connection is disposed. A reader that falls 256 lines behind loses the oldest.
    /// </summary>
    public async IAsyncEnumerable<BalanceLine> ReadAsync([EnumeratorCancellation] CancellationToken ct = default)
    {
        var lines = Channel.CreateBounded<BalanceLine>(
            new BoundedChannelOptions(LinesHeldForASlowReader) { FullMode = BoundedChannelFullMode.DropOldest });
        BalanceLine? previous = null;
        using var subscription = Subscribe(state =>
        {
            if (state.LatestLine is { } line && !ReferenceEquals(line, previous))
            {
                previous = line;
                lines.Writer.TryWrite(line);
            }
        });
        using var ended = _ended.Register(() => lines.Writer.TryComplete());
        await foreach (var line in lines.Reader.ReadAllAsync(ct))
        {
            yield return line;
        }
    }

    /// <summary>Goes to another address, or reads by another format, keeping all who listen. The same address changes nothing.</summary>
    /// <exception cref="ArgumentException">The address cannot work.</exception>
    public void MoveTo(BalanceAddress address)
    {
        BalanceAddress.Checked(address);
        CancellationTokenSource left;
        lock (_gate)
        {
            if (_address == address)
            {
                return;
            }

            _address = address;
            left = _moved;
            _moved = new CancellationTokenSource();
        }

        left.Cancel();
    }

    /// <summary>Ends the link and waits until nothing more is called back.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 1)
        {
            return;
        }

        await _ending.CancelAsync();
        await _running;
        _ending.Dispose();
        _moved.Dispose();
    }

    private async Task RunAsync()
    {
        var failures = 0;
        while (!_ended.IsCancellationRequested)
        {
            var (address, moved) = Present();
            using var stop = CancellationTokenSource.CreateLinkedTokenSource(_ended, moved);
            try
            {
                failures = await TryOnceAsync(address, failures, stop.Token);
                await Task.Delay(_options.RetryDelay(failures), _clock, stop.Token);
            }
            catch (OperationCanceledException)
            {
                failures = 0;
            }
        }

        Publish(_state with { Link = BalanceLink.Lost, LostBecause = "The connection was ended here.", LatestLine = null, NextTryAt = null });
    }

    private (BalanceAddress Address, CancellationToken Moved) Present()
    {
        lock (_gate)
        {
            return (_address, _moved.Token);
        }
    }

    // Gives back the failures in a row, which a session that brought a line ends.
    private async Task<int> TryOnceAsync(BalanceAddress address, int failures, CancellationToken ct)
    {
        var lines = 0;
        Publish(_state with { Link = BalanceLink.Connecting, LatestLine = null, NextTryAt = null });
        var session = new BalanceSession(address, _options, _clock);
        var reason = await session.RunAsync(
            () => Publish(_state with { Link = BalanceLink.Connected, LostBecause = null }),
            line =>
            {
                lines++;
                _recent.Keep(line);
                Publish(WithLine(line));
            },
            ct);
        failures = lines > 0 ? 1 : failures + 1;
        Publish(_state with
        {
            Link = BalanceLink.Lost,
            LostBecause = reason,
            LatestLine = null,
            FailedTries = failures,
            NextTryAt = _clock.GetUtcNow() + _options.RetryDelay(failures),
        });
        return failures;
    }

    private BalanceState WithLine(BalanceLine line) => _state with
    {
        LatestLine = line,
        LastLineAt = line.At,
        FailedTries = 0,
        RejectedLines = _state.RejectedLines + (line is RejectedLine ? 1 : 0),
    };

    // Only the running task publishes, so that changes come in order.
    private void Publish(BalanceState state)
    {
        _state = state;
        _subscribers.Tell(state);
    }
}

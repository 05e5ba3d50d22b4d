using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>
/// The link to a balance whose lines a screen hands on: from the port of its own machine, or typed as keys. What the screen hands on is not
/// trusted: it is raw text, limited in length and number, read and given its time here. Thread-safe.
/// </summary>
public sealed class FedLink : ILineSource, IDisposable
{
    /// <summary>The longest piece that is taken at once, in bytes.</summary>
    public const int LongestPiece = 4_096;

    private readonly string? _expectedSerial;
    private readonly TimeProvider _clock;
    private readonly Subscribers<BalanceState> _subscribers = new(null);
    private readonly LineMemory _recent = new();
    private readonly InflowLimit _bytes;
    private readonly InflowLimit _typed;
    private readonly ITimer _silence;
    private readonly Lock _gate = new();
    private ReadingPipeline _pipeline;
    private long _next;
    private volatile BalanceState _state = new() { Link = BalanceLink.Connecting };
    private bool _open;

    /// <summary>A link that nothing has been handed to yet.</summary>
    /// <param name="format">How the balance writes.</param>
    /// <param name="expectedSerial">The serial number that its lines must carry; null to accept any.</param>
    /// <param name="clock">Tells when a line came.</param>
    /// <exception cref="ArgumentException">By this format nothing can be read.</exception>
    public FedLink(ReadingFormat format, string? expectedSerial, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentNullException.ThrowIfNull(clock);
        if (format.Problems() is { Count: > 0 } problems)
        {
            throw new ArgumentException(string.Join(' ', problems), nameof(format));
        }

        (Format, _expectedSerial, _clock) = (format, expectedSerial, clock);
        _pipeline = new ReadingPipeline(format, expectedSerial);

        // More than any balance sends: 115 200 baud are 11 520 bytes a second.
        _bytes = new InflowLimit(clock, perSecond: 16_384, atOnce: 32_768);
        _typed = new InflowLimit(clock, perSecond: 20, atOnce: 40);
        _silence = clock.CreateTimer(_ => Silent(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <inheritdoc />
    public BalanceState State => _state;

    /// <inheritdoc />
    public ReadingFormat Format { get; }

    /// <inheritdoc />
    public IReadOnlyList<BalanceLine> RecentLines => _recent.NewestFirst;

    /// <inheritdoc />
    public IDisposable Subscribe(Action<BalanceState> onChange)
    {
        ArgumentNullException.ThrowIfNull(onChange);
        return _subscribers.Add(onChange);
    }

    /// <summary>The port is open, or the keys are listened to; whatever was under way before is over.</summary>
    public void Opened()
    {
        lock (_gate)
        {
            (_pipeline, _next, _open) = (new ReadingPipeline(Format, _expectedSerial), 0, true);
            Publish(_state with { Link = BalanceLink.Connected, LostBecause = null, LatestLine = null });
            WatchSilence();
        }
    }

    /// <summary>There is no link, and why, in words.</summary>
    public void Lost(string reason)
    {
        lock (_gate)
        {
            EndPiece();
            _open = false;
            Publish(_state with { Link = BalanceLink.Lost, LostBecause = reason, LatestLine = null });
        }
    }

    /// <summary>Takes a piece of what the port sent.</summary>
    /// <param name="from">The number of bytes that came before it since the port was opened; where some are missing, the line under way is refused.</param>
    /// <param name="piece">At most <see cref="LongestPiece"/> bytes.</param>
    public void Add(long from, ReadOnlySpan<byte> piece)
    {
        lock (_gate)
        {
            if (!_open)
            {
                return;
            }

            if (piece.Length > LongestPiece || !_bytes.Allows(piece.Length))
            {
                RefuseTooMuch();
                Break();
                return;
            }

            if (from != _next)
            {
                Break();
            }

            _next = from + piece.Length;
            foreach (var line in _pipeline.Add(piece, _clock.GetUtcNow()))
            {
                Publish(line);
            }
        }
    }

    /// <summary>Takes a line that was typed as keys if it has the shape of the format, and says whether; every other line is none of a balance.</summary>
    /// <param name="text">The line without its end.</param>
    /// <param name="mayBeCut">Whether its beginning may be missing.</param>
    public bool TakeTyped(string text, bool mayBeCut)
    {
        ArgumentNullException.ThrowIfNull(text);
        lock (_gate)
        {
            if (!_open)
            {
                return false;
            }

            if (!_typed.Allows(1))
            {
                RefuseTooMuch();
                return true;
            }

            var at = _clock.GetUtcNow();
            var line = Format.Parse(text, at, _expectedSerial);
            if (line is RejectedLine { Code: RejectionCode.Unreadable or RejectionCode.Empty or RejectionCode.NotAscii or RejectionCode.TooLong } other)
            {
                _recent.Keep(other);
                return false;
            }

            Publish(mayBeCut ? new RejectedLine(RejectionCode.Partial, "The keys of this line came with a pause: its beginning may be missing. Print it again.", RawText.Printable(text), at) { IsPrint = Format.EachLineIsPrint } : line);
            return true;
        }
    }

    /// <inheritdoc />
    public void Dispose() => _silence.Dispose();

    // Bytes are missing: what came of this line and what is still to come of it are two pieces that must not be put together.
    private void Break()
    {
        EndPiece();
        _pipeline = new ReadingPipeline(Format, _expectedSerial, cut: true);
    }

    private void RefuseTooMuch() =>
        Publish(new RejectedLine(RejectionCode.TooMuch, "More came at once than a balance sends; it was not read.", string.Empty, _clock.GetUtcNow()));

    private void EndPiece()
    {
        if (_pipeline.End(_clock.GetUtcNow()) is { } piece)
        {
            Publish(piece);
        }
    }

    private void Silent()
    {
        lock (_gate)
        {
            if (_open)
            {
                Publish(_state with { Link = BalanceLink.Lost, LostBecause = FormattableString.Invariant($"The balance has sent no line for {Format.SilenceLimit!.Value.TotalSeconds:0.###} s."), LatestLine = null });
            }
        }
    }

    private void WatchSilence() => _silence.Change(Format.SilenceLimit ?? Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);

    private void Publish(BalanceLine line)
    {
        _recent.Keep(line);
        WatchSilence();
        Publish(_state with
        {
            Link = BalanceLink.Connected, LostBecause = null, LatestLine = line, LastLineAt = line.At, RejectedLines = _state.RejectedLines + (line is RejectedLine ? 1 : 0),
        });
    }

    private void Publish(BalanceState state)
    {
        _state = state;
        _subscribers.Tell(state);
    }
}

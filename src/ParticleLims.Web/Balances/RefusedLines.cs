using System.Collections.Concurrent;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>
/// The lines that gave no mass: the last ones of each balance for its page, and each beginning of a row of them in the program's log, so
/// that an overloaded pan does not fill it. Thread-safe.
/// </summary>
public sealed partial class RefusedLines(ILogger<RefusedLines> log)
{
    /// <summary>So many are kept of each balance.</summary>
    public const int Most = 20;

    private readonly ConcurrentDictionary<Guid, Row> rows = new();

    /// <summary>Listens to a balance; the same link again changes nothing.</summary>
    public void Watch(Guid balanceId, string label, ILineSource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        var row = rows.GetOrAdd(balanceId, _ => new Row());
        if (ReferenceEquals(row.Link, source))
        {
            return;
        }

        row.Link = source;
        source.Subscribe(state => Note(row, label, state));
    }

    /// <summary>The last refused lines of a balance, newest first.</summary>
    public IReadOnlyList<RejectedLine> Of(Guid balanceId)
    {
        if (!rows.TryGetValue(balanceId, out var row))
        {
            return [];
        }

        lock (row.Lines)
        {
            return [.. Enumerable.Reverse(row.Lines)];
        }
    }

    private void Note(Row row, string label, BalanceState state)
    {
        if (state.LatestLine is not { } line || ReferenceEquals(line, row.Seen))
        {
            return;
        }

        var before = row.Seen as RejectedLine;
        row.Seen = line;
        if (line is not RejectedLine refused)
        {
            return;
        }

        lock (row.Lines)
        {
            row.Lines.Enqueue(refused);
            if (row.Lines.Count > Most)
            {
                row.Lines.Dequeue();
            }
        }

        if (before?.Code != refused.Code)
        {
            Refused(log, label, refused.Code, refused.Reason, refused.RawLine);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "A line of the {Balance} gave no mass ({Code}): {Reason} It was: {Line}")]
    private static partial void Refused(ILogger log, string balance, RejectionCode code, string reason, string line);

    private sealed class Row
    {
        public Queue<RejectedLine> Lines { get; } = new();

        public ILineSource? Link { get; set; }

        public BalanceLine? Seen { get; set; }
    }
}

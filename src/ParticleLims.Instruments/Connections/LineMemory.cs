using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>Keeps the last lines of a link for whoever sets it up. Thread-safe.</summary>
internal sealed class LineMemory
{
    /// <summary>So many lines are kept.</summary>
    public const int Most = 30;

    private readonly Queue<BalanceLine> _lines = new();

    public IReadOnlyList<BalanceLine> NewestFirst
    {
        get
        {
            lock (_lines)
            {
                return [.. Enumerable.Reverse(_lines)];
            }
        }
    }

    public void Keep(BalanceLine line)
    {
        lock (_lines)
        {
            _lines.Enqueue(line);
            if (_lines.Count > Most)
            {
                _lines.Dequeue();
            }
        }
    }
}

using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>The lines of one balance, whichever way they come in. Thread-safe.</summary>
public interface ILineSource
{
    /// <summary>What is known now.</summary>
    BalanceState State { get; }

    /// <summary>How the balance writes.</summary>
    ReadingFormat Format { get; }

    /// <summary>The last lines, read or refused, the newest first.</summary>
    IReadOnlyList<BalanceLine> RecentLines { get; }

    /// <summary>
    /// Calls back at each change and each line, one after the other, until the result is disposed. Subscribe first, then read
    /// <see cref="State"/>. The callback must be quick: it holds up the lines that follow.
    /// </summary>
    IDisposable Subscribe(Action<BalanceState> onChange);
}

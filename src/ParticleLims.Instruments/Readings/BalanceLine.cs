namespace ParticleLims.Instruments.Readings;

/// <summary>What one line from a balance turned out to be: a <see cref="BalanceReading"/> or a <see cref="RejectedLine"/>.</summary>
/// <param name="RawLine">The line as it came, without its terminator; characters that cannot be printed are shown as <c>\xHH</c>.</param>
/// <param name="At">When the line was complete, as an instant.</param>
public abstract record BalanceLine(string RawLine, DateTimeOffset At)
{
    /// <summary>Whether the balance sends one line for each press of its print key, so that none follows this one by itself.</summary>
    public bool IsPrint { get; init; }
}

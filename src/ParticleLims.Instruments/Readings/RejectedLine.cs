namespace ParticleLims.Instruments.Readings;

/// <summary>A line that gives no mass. It is kept and shown, never repaired.</summary>
/// <param name="Code">Why, for a machine.</param>
/// <param name="Reason">Why, in words for the person at the bench.</param>
/// <param name="RawLine">The line as it came; characters that cannot be printed are shown as <c>\xHH</c>.</param>
/// <param name="At">When the line was complete.</param>
public sealed record RejectedLine(RejectionCode Code, string Reason, string RawLine, DateTimeOffset At)
    : BalanceLine(RawLine, At);

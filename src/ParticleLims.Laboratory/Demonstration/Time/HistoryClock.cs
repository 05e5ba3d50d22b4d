namespace ParticleLims.Laboratory.Demonstration.Time;

/// <summary>The clock of a history that is being made: it stands until it is moved, never backwards and never beyond the end.</summary>
internal sealed class HistoryClock(DateTimeOffset start, DateTimeOffset end) : TimeProvider
{
    /// <summary>The last instant of the history.</summary>
    public DateTimeOffset End { get; } = end;

    /// <summary>What the clock shows.</summary>
    public DateTimeOffset Now { get; private set; } = start;

    /// <inheritdoc />
    public override DateTimeOffset GetUtcNow() => Now;

    /// <summary>Goes on to an instant; one that has passed already moves nothing.</summary>
    public void MoveTo(DateTimeOffset instant) => Now = instant > End ? End : instant > Now ? instant : Now;

    /// <summary>Lets so many seconds pass.</summary>
    public void Pass(double seconds) => MoveTo(Now.AddTicks((long)(seconds * 1000) * TimeSpan.TicksPerMillisecond));
}

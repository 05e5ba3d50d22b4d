namespace ParticleLims.Laboratory.Demonstration.Time;

/// <summary>The span of the history.</summary>
internal sealed class History(DateTimeOffset start, DateTimeOffset end)
{
    /// <summary>The first instant.</summary>
    public DateTimeOffset Start { get; } = start;

    /// <summary>The last instant.</summary>
    public DateTimeOffset End { get; } = end;

    /// <summary>The working time nearest after a part (0 to 1) of it.</summary>
    public DateTimeOffset AtPart(double part) => WorkingTime.After(Start + ((End - Start) * part), 0.4);

    /// <summary>The part that has passed at an instant, 0 to 1.</summary>
    public double PartAt(DateTimeOffset instant) => Math.Clamp((instant - Start) / (End - Start), 0, 1);
}

namespace ParticleLims.Laboratory.Runs;

/// <summary>Where a sieve was when its label was scanned.</summary>
public enum ScanPlace
{
    /// <summary>On its way to the pan, empty.</summary>
    Pan,
    /// <summary>On its way into the stack.</summary>
    Stack,
}

/// <summary>A scanned label that was the right one: it proves which sieve was in hand. Written once.</summary>
public sealed class SieveScan
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }

    /// <summary>The sieve's position.</summary>
    public int Position { get; init; }
    public ScanPlace Place { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public required string Terminal { get; init; }
}

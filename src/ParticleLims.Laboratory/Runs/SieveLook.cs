using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Runs;

/// <summary>An empty sieve that does not weigh what it usually does, looked at before it was used all the same. Written once.</summary>
public sealed class SieveLook
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }

    /// <summary>The sieve's position.</summary>
    public int Position { get; init; }

    /// <summary>What it usually weighed at that time.</summary>
    public Mass Usual { get; init; }

    /// <summary>What was seen and done.</summary>
    public required string Seen { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public required string Terminal { get; init; }
}

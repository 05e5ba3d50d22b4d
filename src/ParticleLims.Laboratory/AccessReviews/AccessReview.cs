namespace ParticleLims.Laboratory.AccessReviews;

/// <summary>A signed look at who may do what; written once. The list that was signed is the content of its signature.</summary>
public sealed class AccessReview
{
    public Guid Id { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public Guid SignatureId { get; init; }

    /// <summary>How many accounts stood in the list.</summary>
    public int Accounts { get; init; }

    /// <summary>How many of them could sign on.</summary>
    public int Active { get; init; }

    /// <summary>What was found and what follows, in the reviewer's words.</summary>
    public required string Finding { get; init; }
}

namespace ParticleLims.Laboratory.Record;

/// <summary>A kind of deed, which is also the kind of the event that it leaves.</summary>
/// <param name="Code">Stable and never reused: <c>family.deed</c>.</param>
/// <param name="Words">For people, in the past: "Lot booked in".</param>
/// <param name="Needs">The permission; null where anybody may, as at sign-on.</param>
/// <param name="ReasonRequired">Whether the actor has to say why.</param>
public sealed record DeedKind(string Code, string Words, Permission? Needs, bool ReasonRequired = false);

/// <summary>One deed about to be carried out.</summary>
/// <param name="Kind">What is done.</param>
/// <param name="By">Who does it, where.</param>
/// <param name="Key">The idempotency key: the same key again gives the first answer and does nothing.</param>
/// <param name="Reason">Why, in the actor's words.</param>
public sealed record Deed(DeedKind Kind, Actor By, string? Key = null, string? Reason = null)
{
    /// <summary>What was asked, so that its key cannot be used for something else; every deed with a key says it. No secrets: a hash of it is stored.</summary>
    public object? Asked { get; init; }
}

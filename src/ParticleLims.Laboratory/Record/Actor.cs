namespace ParticleLims.Laboratory.Record;

/// <summary>Who acts, and from which terminal. What the person may do is looked up anew at every deed, never carried along.</summary>
/// <param name="PersonId">The person; null for the laboratory's own program and for somebody not signed on.</param>
/// <param name="Terminal">The terminal's name, as the record keeps it; within a session at an enrolled terminal the enrolled name counts instead.</param>
/// <param name="SessionId">The session in which the person acts: a deed is refused once it is over. Null for programs with a token and for the laboratory's own work.</param>
public sealed record Actor(Guid? PersonId, string Terminal, Guid? SessionId = null)
{
    /// <summary>The program itself: starting, migrating, making the demonstration.</summary>
    public static Actor Program { get; } = new(null, "server");

    /// <summary>Somebody at a terminal who has not signed on.</summary>
    public static Actor Unknown(string terminal) => new(null, terminal);
}

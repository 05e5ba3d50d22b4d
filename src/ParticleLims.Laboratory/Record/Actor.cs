namespace ParticleLims.Laboratory.Record;

/// <summary>Who acts, and from which terminal. What the person may do is looked up anew at every deed, never carried along.</summary>
/// <param name="PersonId">The person; null for the laboratory's own program and for somebody not signed on.</param>
/// <param name="Terminal">The terminal's name, as the record keeps it.</param>
public sealed record Actor(Guid? PersonId, string Terminal)
{
    /// <summary>The program itself: starting, migrating, making the demonstration.</summary>
    public static Actor Program { get; } = new(null, "server");

    /// <summary>Somebody at a terminal who has not signed on.</summary>
    public static Actor Unknown(string terminal) => new(null, terminal);
}

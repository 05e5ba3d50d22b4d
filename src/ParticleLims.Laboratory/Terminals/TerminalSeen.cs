namespace ParticleLims.Laboratory.Terminals;

/// <summary>The browser at which somebody stands.</summary>
/// <param name="Name">Its name in the record: the enrolled one, or a mark that was given to the browser once.</param>
/// <param name="Id">The enrolled terminal; null for any other browser.</param>
public sealed record TerminalSeen(string Name, Guid? Id = null);

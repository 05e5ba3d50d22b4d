using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>What a deed works with while it is carried out: the open transaction, who acts, the one instant at which all of it happens.</summary>
public sealed class DeedScope
{
    internal DeedScope(LaboratoryContext data, Deed deed, Standing by, DateTimeOffset now)
    {
        Data = data;
        Deed = deed;
        By = by;
        Now = now;
    }

    /// <summary>The context of this transaction.</summary>
    public LaboratoryContext Data { get; }

    /// <summary>The deed.</summary>
    public Deed Deed { get; }

    /// <summary>Who acts.</summary>
    public Standing By { get; }

    /// <summary>The instant of the deed, to the microsecond.</summary>
    public DateTimeOffset Now { get; }

    /// <summary>The person who acts.</summary>
    /// <exception cref="NotPermittedException">The program acts, or nobody signed on.</exception>
    public Guid PersonId => By.PersonId ?? throw new NotPermittedException(By.Name, null);

    /// <summary>The terminal's name for the record: the enrolled one where there is one.</summary>
    public string Terminal => By.EnrolledTerminal ?? Deed.By.Terminal;

    /// <summary>Whether the same person did what a second person does elsewhere, because the laboratory works with one. The event and every signature of the deed say so.</summary>
    public bool ByOnePerson { get; private set; }

    /// <summary>What is said of a name or a meaning then.</summary>
    /// <param name="words">The name or the meaning.</param>
    public string Marked(string words) => ByOnePerson ? $"{words} {Signature.OnePersonMark}" : words;

    internal void MarkOnePerson() => ByOnePerson = true;

    internal (string Kind, Guid Id, string Label)? Subject { get; private set; }

    /// <summary>Says what the deed is about; every deed does so exactly once.</summary>
    public void About(string kind, Guid id, string label)
    {
        if (Subject is not null)
        {
            throw new InvalidOperationException("A deed is about one thing.");
        }

        Subject = (kind, id, label);
    }

    /// <summary>A new key, in the order of time.</summary>
    public Guid NewId() => Guid.CreateVersion7(Now);

    /// <summary>Finds a row by its key or refuses in words.</summary>
    public async Task<T> FindAsync<T>(Guid id, string what, CancellationToken cancellation)
        where T : class =>
        await RowById<T>.AskAsync(Data, id, cancellation) ?? throw new RefusedException("not-found", $"There is no such {what}. It may have been opened from an old link.");

    /// <summary>Refuses when the row was changed since the actor read it.</summary>
    public static void RequireVersion(IVersioned row, long expected, string what)
    {
        ArgumentNullException.ThrowIfNull(row);
        if (row.Version != expected)
        {
            throw new StaleVersionException(what);
        }
    }
}

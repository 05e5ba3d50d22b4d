using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>The database could not work. Whoever asked hears why in words, and may ask again: a deed with a key is carried out once.</summary>
public sealed class DatabaseTroubledException(DatabaseTrouble trouble, Exception fault) : RefusedException(CodeOf(trouble), Words(trouble), innerException: fault)
{
    /// <summary>What is wrong.</summary>
    public DatabaseTrouble Trouble { get; } = trouble;

    private static string CodeOf(DatabaseTrouble trouble) => trouble switch
    {
        DatabaseTrouble.DiskFull => "database-full",
        DatabaseTrouble.Held => "database-held",
        DatabaseTrouble.ReadOnly => "database-read-only",
        _ => "database-unreachable",
    };

    private static string Words(DatabaseTrouble trouble) => trouble switch
    {
        DatabaseTrouble.DiskFull => "The disk of the database is full: nothing can be saved. Leave everything as it is and tell the administrator; go on when there is room again.",
        DatabaseTrouble.Held => "Another program holds the database and does not let go. Leave everything as it is and try again in a moment; if it stays so, tell the administrator.",
        DatabaseTrouble.ReadOnly => "The database may be read and not written: nothing can be saved. Leave everything as it is and tell the administrator.",
        _ => "The database does not answer. Leave everything as it is and look again in a moment; if it stays so, tell the administrator.",
    };
}

using Microsoft.EntityFrameworkCore.Storage;

namespace ParticleLims.Laboratory.Storage;

/// <summary>What differs between SQLite and PostgreSQL.</summary>
public interface IDatabaseEngine
{
    /// <summary>For people: "SQLite" or "PostgreSQL".</summary>
    string Name { get; }

    /// <summary>Opens a transaction in which this is the only writer, so that events get their place in the chain one after another.</summary>
    Task<IDbContextTransaction> BeginWritingAsync(LaboratoryContext data, CancellationToken cancellation);

    /// <summary>Opens a transaction that sees one state of the whole database, holds nobody up and writes nothing.</summary>
    Task<IDbContextTransaction> BeginReadingAsync(LaboratoryContext data, CancellationToken cancellation);

    /// <summary>What is wrong with the database, if that is what a fault tells; null for any other fault.</summary>
    DatabaseTrouble? TroubleOf(Exception fault);

    /// <summary>Refuses, in words, a database whose settings could lose an acknowledged write.</summary>
    Task CheckSettingsAsync(LaboratoryContext data, CancellationToken cancellation);

    /// <summary>Writes a backup into the folder and proves that it can be opened and holds the same record. Returns its path.</summary>
    Task<string> BackUpAsync(LaboratoryContext data, string folder, DateTimeOffset at, CancellationToken cancellation);

    /// <summary>Held while migrating, so that two programs never migrate at once; also clears what a killed migration left behind.</summary>
    Task<IAsyncDisposable> LockForMigrationAsync(LaboratoryContext data, CancellationToken cancellation);
}

using System.Diagnostics;
using Microsoft.Data.Sqlite;

namespace ParticleLims.Benchmarks;

/// <summary>
/// The least that a durable row can cost on this disk: one INSERT in a transaction of its own into an empty SQLite file, with WAL and synchronous=FULL.
/// Measured in turn with what it is compared to.
/// </summary>
internal sealed class BareInsert : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly SqliteCommand insert;

    /// <summary>Makes the file in the same folder, and so on the same disk, as what it is compared to.</summary>
    public BareInsert(string folder)
    {
        connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, "bare.db"), Pooling = false }.ConnectionString);
        connection.Open();
        using var prepare = connection.CreateCommand();
        prepare.CommandText = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; CREATE TABLE rows (id INTEGER PRIMARY KEY, content BLOB NOT NULL)";
        prepare.ExecuteNonQuery();
        insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO rows (content) VALUES ($content)";
    }

    /// <summary>Inserts a row and adds how long it took.</summary>
    public void Time(Timings timings, byte[] content)
    {
        insert.Parameters.Clear();
        insert.Parameters.AddWithValue("$content", content);
        var started = Stopwatch.GetTimestamp();
        insert.ExecuteNonQuery();
        timings.AddSince(started);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        insert.Dispose();
        connection.Dispose();
    }
}

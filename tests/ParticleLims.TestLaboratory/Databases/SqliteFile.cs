using Microsoft.Data.Sqlite;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>A place for one SQLite database in a folder of its own, removed with everything beside it when disposed.</summary>
public sealed class SqliteFile : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("particlelims-sqlite-");

    /// <summary>The file; it does not exist until somebody opens it.</summary>
    public string Path => System.IO.Path.Combine(folder.FullName, "laboratory.db");

    /// <summary>How to open it.</summary>
    public string ConnectionString => new SqliteConnectionStringBuilder { DataSource = Path }.ConnectionString;

    /// <summary>Closes the pooled connections, which would keep the deleted file open, and removes the folder.</summary>
    public void Dispose()
    {
        SqlitePools.LetGo(Path);
        folder.Delete(recursive: true);
    }
}

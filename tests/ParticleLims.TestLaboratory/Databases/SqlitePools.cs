using Microsoft.Data.Sqlite;
using ParticleLims.Storage.Sqlite;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>Closes the connections that this process keeps open to one database. All pools at once would take them from the tests that run beside, at the very moment in which these open one.</summary>
public static class SqlitePools
{
    /// <summary>Lets go of a database file.</summary>
    public static void LetGo(string databaseFile)
    {
        foreach (var connection in new[] { SqliteStorage.ConnectionTo(databaseFile), new SqliteConnectionStringBuilder { DataSource = databaseFile }.ConnectionString })
        {
            using var pooled = new SqliteConnection(connection);
            SqliteConnection.ClearPool(pooled);
        }
    }

    /// <summary>Lets go of every database in a folder.</summary>
    public static void LetGoIn(DirectoryInfo folder)
    {
        ArgumentNullException.ThrowIfNull(folder);
        foreach (var file in folder.EnumerateFiles("*.db"))
        {
            LetGo(file.FullName);
        }
    }
}

using Microsoft.Data.Sqlite;
using ParticleLims.TestLaboratory.Databases;
using Shouldly;
using Xunit;

namespace ParticleLims.Storage.Sqlite.Tests.Databases;

public sealed class SqliteFileTests
{
    [Fact]
    public void A_file_is_usable_and_leaves_nothing_behind()
    {
        string folder;
        using (var file = new SqliteFile())
        {
            folder = Path.GetDirectoryName(file.Path)!;
            using var connection = new SqliteConnection(file.ConnectionString);
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA journal_mode = WAL; CREATE TABLE mine (number int); INSERT INTO mine VALUES (7); SELECT number FROM mine";
            command.ExecuteScalar().ShouldBe("wal");
            File.Exists(file.Path + "-wal").ShouldBeTrue();
        }

        Directory.Exists(folder).ShouldBeFalse();
    }
}

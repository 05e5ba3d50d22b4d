using Microsoft.EntityFrameworkCore.Migrations;

namespace ParticleLims.Storage.Sqlite;

/// <summary>
/// Triggers that refuse every change of a written row. SQLite needs three a table: INSERT OR REPLACE and upsert walk round the
/// delete trigger, so an insert on an existing key is refused too.
/// </summary>
internal static class AppendOnlyTriggers
{
    /// <summary>From now on only these columns of a row stay; the others can be corrected.</summary>
    public static void Fix(MigrationBuilder migration, string table, string columns)
    {
        migration.Sql($"DROP TRIGGER {table}_no_update;");
        migration.Sql($"CREATE TRIGGER {table}_no_update BEFORE UPDATE OF {columns} ON {table} BEGIN SELECT RAISE(ABORT, '{table}: rows are written once'); END;");
    }

    public static void Add(MigrationBuilder migration, string table, string key)
    {
        var words = $"'{table}: rows are written once'";
        migration.Sql($"CREATE TRIGGER {table}_no_update BEFORE UPDATE ON {table} BEGIN SELECT RAISE(ABORT, {words}); END;");
        migration.Sql($"CREATE TRIGGER {table}_no_delete BEFORE DELETE ON {table} BEGIN SELECT RAISE(ABORT, {words}); END;");
        var sameKey = string.Join(" AND ", key.Split(", ").Select(column => $"{column} = NEW.{column}"));
        migration.Sql($"CREATE TRIGGER {table}_no_replace BEFORE INSERT ON {table} WHEN EXISTS (SELECT 1 FROM {table} WHERE {sameKey}) BEGIN SELECT RAISE(ABORT, {words}); END;");
    }
}

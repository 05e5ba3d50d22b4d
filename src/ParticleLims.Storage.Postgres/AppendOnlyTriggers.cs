using Microsoft.EntityFrameworkCore.Migrations;

namespace ParticleLims.Storage.Postgres;

/// <summary>Triggers that refuse every change of a written row: UPDATE and DELETE row by row, TRUNCATE as a statement. An upsert is an UPDATE to PostgreSQL.</summary>
internal static class AppendOnlyTriggers
{
    public static void AddFunction(MigrationBuilder migration) => migration.Sql(
        "CREATE FUNCTION rows_are_written_once() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '%: rows are written once', TG_TABLE_NAME; END; $$;");

    /// <summary>From now on only these columns of a row stay; the others can be corrected.</summary>
    public static void Fix(MigrationBuilder migration, string table, string columns)
    {
        migration.Sql($"DROP TRIGGER {table}_no_change ON {table};");
        migration.Sql($"CREATE TRIGGER {table}_no_change BEFORE UPDATE OF {columns} OR DELETE ON {table} FOR EACH ROW EXECUTE FUNCTION rows_are_written_once();");
    }

    public static void Add(MigrationBuilder migration, string table)
    {
        migration.Sql($"CREATE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE ON {table} FOR EACH ROW EXECUTE FUNCTION rows_are_written_once();");
        migration.Sql($"CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON {table} FOR EACH STATEMENT EXECUTE FUNCTION rows_are_written_once();");
    }
}

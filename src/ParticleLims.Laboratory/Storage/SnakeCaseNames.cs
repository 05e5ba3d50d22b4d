using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Storage;

/// <summary>Tables and columns read as words joined by underscores, so that SQL by hand needs no quotes on PostgreSQL.</summary>
internal static partial class SnakeCaseNames
{
    public static void Apply(ModelBuilder builder)
    {
        foreach (var entity in builder.Model.GetEntityTypes())
        {
            entity.SetTableName(Of(entity.GetTableName()));
            foreach (var property in entity.GetProperties())
            {
                property.SetColumnName(Of(property.GetColumnName()));
            }

            foreach (var key in entity.GetKeys())
            {
                key.SetName(Of(key.GetName()));
            }

            foreach (var foreignKey in entity.GetForeignKeys())
            {
                foreignKey.SetConstraintName(Of(foreignKey.GetConstraintName()));
            }

            foreach (var index in entity.GetIndexes())
            {
                index.SetDatabaseName(Of(index.GetDatabaseName()));
            }
        }
    }

    private static string? Of(string? name) => name is null ? null : WordStart().Replace(name, "_").ToLowerInvariant();

    [GeneratedRegex("(?<=[a-z0-9])(?=[A-Z])", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex WordStart();
}

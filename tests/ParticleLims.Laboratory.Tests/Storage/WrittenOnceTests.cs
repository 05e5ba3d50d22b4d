using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.Storage;

/// <summary>What is written once stays, whatever statement comes and whoever sends it to the database.</summary>
public sealed class WrittenOnceTests
{
    [Theory]
    [EachDatabase]
    public async Task Rows_written_once_refuse_every_change(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await FillAsync(laboratory.Small);
        await using var data = laboratory.Data();
        foreach (var (table, key) in AppendOnlyTables.All)
        {
            var before = await RowsAsync(data, table);
            before.ShouldNotBeEmpty($"{table} has rows to change");
            var columns = await ColumnsAsync(data, table);
            foreach (var attack in Attacks(kind, table, key, columns))
            {
                var fault = await Should.ThrowAsync<DbException>(() => data.Database.ExecuteSqlRawAsync(attack), attack);
                fault.Message.ShouldContain($"{table}: rows are written once", Case.Sensitive, attack);
            }

            (await RowsAsync(data, table)).ShouldBe(before, $"{table} is as it was");
        }
    }

    private static IEnumerable<string> Attacks(DatabaseKind kind, string table, string key, string[] columns)
    {
        var (all, keys) = (string.Join(", ", columns), key.Split(", "));
        yield return $"UPDATE {table} SET {columns[^1]} = {columns[^1]}";
        yield return $"UPDATE {table} SET {keys[0]} = {keys[0]}";
        yield return $"DELETE FROM {table}";
        yield return $"INSERT INTO {table} ({all}) SELECT {all} FROM {table} WHERE true ON CONFLICT ({key}) DO UPDATE SET {columns[^1]} = excluded.{columns[^1]}";
        if (kind == DatabaseKind.Postgres)
        {
            yield return $"TRUNCATE {table} CASCADE";
            yield break;
        }

        yield return $"INSERT OR REPLACE INTO {table} ({all}) SELECT {all} FROM {table}";
        yield return $"REPLACE INTO {table} ({all}) SELECT {all} FROM {table}";
        yield return $"UPDATE OR REPLACE {table} SET {columns[^1]} = {columns[^1]}";
    }

    private static async Task FillAsync(SmallLaboratory small)
    {
        var good = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await small.Desk.IssueAsync(good.Id, good.Sample.Id);
        var bad = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var investigation = (await small.Desk.InvestigationsAsync(bad.Id)).Single();
        await small.Get<Laboratory.Investigations.InvestigationWork>().NoteAsync(small.People.Reviewer.Actor, investigation.Id, "The sieve was looked at: no hole", null, default);
        await small.Desk.ProposeAsync(bad.Id);
        await small.ReadCautionsAsync(small.People.Technician);
        var begun = await small.BookInAsync(small.Starch);
        await small.Bench().StartAsync(begun.RunId, begun.Method);
        await small.Bench().ScanAsync(begun.RunId, "TS-PS-63-032");
        await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var looked = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(looked.RunId, looked.Method);
        await small.Bench().LookAsync(looked.RunId, 1, "Brushed, mesh whole");
    }

    private static async Task<string[]> ColumnsAsync(LaboratoryContext data, string table)
    {
        await data.Database.OpenConnectionAsync();
        await using var command = data.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"SELECT * FROM {table} LIMIT 1";
        await using var reader = await command.ExecuteReaderAsync();
        return [.. Enumerable.Range(0, reader.FieldCount).Select(reader.GetName)];
    }

    private static async Task<List<string>> RowsAsync(LaboratoryContext data, string table)
    {
        await data.Database.OpenConnectionAsync();
        await using var command = data.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"SELECT * FROM {table} ORDER BY 1, 2";
        await using var reader = await command.ExecuteReaderAsync();
        var rows = new List<string>();
        while (await reader.ReadAsync())
        {
            rows.Add(string.Join('|', Enumerable.Range(0, reader.FieldCount).Select(column => reader.GetValue(column) is byte[] bytes ? Convert.ToHexString(bytes) : Convert.ToString(reader.GetValue(column), CultureInfo.InvariantCulture))));
        }

        return rows;
    }
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests;

/// <summary>Asserts that a deed is refused in words and that nothing of it was written.</summary>
internal static class Untouched
{
    /// <summary>The refusal, whose code is the expected one; every table is as it was.</summary>
    public static async Task<RefusedException> ShouldRefuseAsync(this OpenedSmallLaboratory laboratory, string code, Func<Task> act)
    {
        var before = await SumAsync(laboratory);
        var refusal = await Should.ThrowAsync<RefusedException>(act);
        refusal.Code.ShouldBe(code, refusal.Message);
        refusal.Message.ShouldEndWith(".", Case.Sensitive, "a refusal is a sentence");
        (await SumAsync(laboratory)).ShouldBe(before, $"nothing was written by what was refused with: {refusal.Message}");
        return refusal;
    }

    /// <summary>How many events the record has.</summary>
    public static async Task<int> EventsAsync(this OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return await data.Events.CountAsync();
    }

    /// <summary>The newest event.</summary>
    public static async Task<RecordEvent> LastEventAsync(this OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return await data.Events.AsNoTracking().OrderByDescending(one => one.Sequence).FirstAsync();
    }

    /// <summary>Rows of every table and the sum of all versions: any write changes one of them.</summary>
    public static async Task<string> SumAsync(OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return await SumAsync(data);
    }

    /// <summary>The same over an open context.</summary>
    public static async Task<string> SumAsync(LaboratoryContext data)
    {
        var tables = data.Model.GetEntityTypes().Select(entity => (entity.GetTableName()!, Versioned: typeof(IVersioned).IsAssignableFrom(entity.ClrType))).Distinct().OrderBy(table => table.Item1, StringComparer.Ordinal).ToList();
        var parts = tables.Select(table => string.Create(CultureInfo.InvariantCulture, $"SELECT '{table.Item1}' AS name, COUNT(*) AS amount, {(table.Versioned ? "CAST(COALESCE(SUM(version), 0) AS bigint)" : "0")} AS versions FROM \"{table.Item1}\""));
        await data.Database.OpenConnectionAsync();
        await using var command = data.Database.GetDbConnection().CreateCommand();
        command.CommandText = string.Join(" UNION ALL ", parts) + " ORDER BY name";
        await using var reader = await command.ExecuteReaderAsync();
        var lines = new List<string>();
        while (await reader.ReadAsync())
        {
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"{reader.GetValue(0)} {reader.GetValue(1)} {reader.GetValue(2)}"));
        }

        return string.Join('\n', lines);
    }
}

using System.Data.Common;
using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Histories;
using ParticleLims.Laboratory.Runs;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.Benchmarks.Histories;

/// <summary>How long it takes to hold a draft specification against a product's whole history, read from SQLite; beside it, reading the same rows and doing nothing with them.</summary>
internal static class WhatIfScoring
{
    private const int Repeated = 7;

    /// <summary>Fills the history with so many thousand results and scores a draft several times.</summary>
    public static async Task<int> RunAsync(int thousands)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var small = laboratory.Small;
        var lot = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite)).AcceptAsync();
        await using (var data = laboratory.Data())
        {
            await CopyAsync(data.Database.GetDbConnection(), lot.Sample.Id, lot.RunId, thousands * 1_000 - 1);
        }

        var (scoring, reading) = (new Timings("a draft scored against the history"), new Timings("the same rows read"));
        var results = 0L;
        for (var time = 0; time <= Repeated; time++)
        {
            var started = Stopwatch.GetTimestamp();
            var score = await small.Get<DraftScoring>().OfAsync(small.People.QualityManager.Actor, small.Calcite.ProductId, TestMethods.CalciteLimits.Limits, CancellationToken.None);
            var scored = Stopwatch.GetElapsedTime(started);
            results = score.Results;
            started = Stopwatch.GetTimestamp();
            await using var data = laboratory.Data();
            var rows = await data.Evaluations.AsNoTracking().Select(evaluation => new { evaluation.Id, evaluation.Curve }).ToListAsync();
            if (rows.Count < results)
            {
                throw new InvalidOperationException("Rows are missing.");
            }

            // The first time is not counted: everything is compiled in it.
            if (time > 0)
            {
                scoring.Add(scored);
                reading.Add(Stopwatch.GetElapsedTime(started));
            }
        }

        Console.WriteLine(scoring);
        Console.WriteLine(reading);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {results} results: {results / scoring.Median * 1_000:0} results/s, {scoring.Median / reading.Median:0.0} times the reading (medians)"));
        return 0;
    }

    // Copies within the database: a hundred thousand lots carried through the bench would take hours and leave the same rows.
    private static async Task CopyAsync(DbConnection connection, Guid sampleId, Guid runId, int copies)
    {
        await connection.OpenAsync();
        await DoAsync(connection, "PRAGMA foreign_keys = OFF");
        var evaluationId = await AskAsync(connection, $"SELECT evaluation_id FROM runs WHERE id = '{runId.ToString("D").ToUpperInvariant()}'");
        await CopyRowAsync(connection, "evaluations", evaluationId, copies, new(StringComparer.Ordinal) { ["id"] = Key("E"), ["run_id"] = Key("B") });
        await CopyRowAsync(connection, "samples", sampleId.ToString("D").ToUpperInvariant(), copies, new(StringComparer.Ordinal) { ["id"] = Key("A"), ["code"] = "'X-' || n" });
        await CopyRowAsync(connection, "runs", runId.ToString("D").ToUpperInvariant(), copies, new(StringComparer.Ordinal) { ["id"] = Key("B"), ["number"] = "'Y-' || n", ["sample_id"] = Key("A"), ["evaluation_id"] = Key("E") });
    }

    private static string Key(string kind) => $"printf('{kind}0000000-0000-7000-8000-%012X', n)";

    private static async Task CopyRowAsync(DbConnection connection, string table, string id, int copies, Dictionary<string, string> fresh)
    {
        var columns = new List<string>();
        await using (var ask = connection.CreateCommand())
        {
            ask.CommandText = $"SELECT name FROM pragma_table_info('{table}')";
            await using var reader = await ask.ExecuteReaderAsync();
            while (await reader.ReadAsync())
            {
                columns.Add(reader.GetString(0));
            }
        }

        var values = columns.ConvertAll(column => fresh.GetValueOrDefault(column, $"\"{column}\""));
        await DoAsync(connection, string.Create(CultureInfo.InvariantCulture, $"""
            WITH RECURSIVE numbers(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM numbers WHERE n < {copies})
            INSERT INTO {table} ({string.Join(", ", columns.ConvertAll(column => $"\"{column}\""))}) SELECT {string.Join(", ", values)} FROM {table} CROSS JOIN numbers WHERE id = '{id}'
            """));
    }

    private static async Task DoAsync(DbConnection connection, string words)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = words;
        await command.ExecuteNonQueryAsync();
    }

    private static async Task<string> AskAsync(DbConnection connection, string words)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = words;
        return (string)(await command.ExecuteScalarAsync())!;
    }
}

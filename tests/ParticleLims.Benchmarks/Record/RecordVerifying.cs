using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.TestLaboratory;

namespace ParticleLims.Benchmarks.Record;

/// <summary>How many events a second the chain of the record is recomputed, read from SQLite and in memory.</summary>
internal static class RecordVerifying
{
    private const int AtOnce = 5_000;
    private const int Repeated = 7;

    /// <summary>Fills a record with so many thousand events as a weighing leaves them, and checks it several times.</summary>
    public static async Task<int> RunAsync(int thousands)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(DatabaseKind.Sqlite);
        await FillAsync(laboratory, thousands * 1_000);
        var (stored, memory) = (new Timings("chain recomputed, read from SQLite"), new Timings("chain recomputed, events in memory"));
        var events = 0L;
        for (var time = 0; time <= Repeated; time++)
        {
            await using var data = laboratory.Data();
            var started = Stopwatch.GetTimestamp();
            var found = await RecordVerifier.VerifyAsync(data, null, CancellationToken.None);
            Keep(stored, started, found, warm: time > 0);
            var all = await data.Events.AsNoTracking().OrderBy(one => one.Sequence).ToListAsync();
            started = Stopwatch.GetTimestamp();
            Keep(memory, started, RecordVerifier.Verify(all, null), warm: time > 0);
            events = found.Events;
        }

        Print(stored, events);
        Print(memory, events);
        return 0;
    }

    // The first time is not counted: everything is compiled in it.
    private static void Keep(Timings timings, long started, RecordVerification found, bool warm)
    {
        var time = Stopwatch.GetElapsedTime(started);
        if (found.Fault is { } fault)
        {
            throw new InvalidOperationException(fault);
        }

        if (warm)
        {
            timings.Add(time);
        }
    }

    private static void Print(Timings timings, long events)
    {
        Console.WriteLine(timings);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {events} events: {events / timings.Median * 1_000:0} events/s (median)"));
    }

    private static async Task FillAsync(RunningLaboratory laboratory, int count)
    {
        RecordEvent last;
        await using (var data = laboratory.Data())
        {
            last = await data.Events.AsNoTracking().OrderByDescending(one => one.Sequence).FirstAsync();
        }

        for (var filled = 0; filled < count; filled += AtOnce)
        {
            await using var data = laboratory.Data();
            data.ChangeTracker.AutoDetectChangesEnabled = false;
            for (var one = 0; one < AtOnce; one++)
            {
                last = Next(last);
                data.Add(last);
            }

            await data.SaveChangesAsync();
        }
    }

    private static RecordEvent Next(RecordEvent last)
    {
        var number = last.Sequence + 1;
        var changes = string.Create(CultureInfo.InvariantCulture, $$$"""[{"thing":"Weighing","id":"019ce000-0000-7000-8000-{{{number:000000000000}}}","change":"added","values":{"At":[null,"2026-03-02T08:00:00.000000Z"],"BalanceId":[null,"019ce000-0000-7000-8000-000000000001"],"Kind":[null,"Loaded"],"Mass":[null,"{{{number * 1_237}}} µg"],"PersonName":[null,"Tove Brandt"],"Position":[null,"3"],"Raw":[null,"S +   312.3450 g 0417"],"RunId":[null,"019ce000-0000-7000-8000-000000000002"],"Way":[null,"Network"]}},{"thing":"Run","id":"019ce000-0000-7000-8000-000000000002","change":"changed","values":{"NextStep":["7","8"]}}]""");
        RecordEvent Draft(string hash) => new()
        {
            Sequence = number, At = last.At.AddSeconds(7), PersonId = Guid.Empty, PersonName = "Tove Brandt", Terminal = "Bench 1", Code = "runs.weigh", SubjectKind = "Run", SubjectId = Guid.Empty,
            SubjectLabel = "R-26-00042", Changes = changes, SearchText = RecordEvent.SearchTextOf("R-26-00042", "Tove Brandt", "runs.weigh"), PreviousHash = last.Hash, Hash = hash,
        };
        return Draft(RecordChain.HashOf(Draft(string.Empty)));
    }
}

using System.Diagnostics;
using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Runs;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.Benchmarks.Weighings;

/// <summary>From the balance's stable line to the acknowledged row on disk, in turn with a bare durable insert.</summary>
internal sealed class WeighingPath(OpenedSmallLaboratory laboratory, BenchBalance balance, BareInsert bare)
{
    private const int WarmUp = 120;

    private readonly Timings heard = new("stable line sent -> reading may be taken");
    private readonly Timings kept = new("reading -> acknowledged, on disk");
    private readonly Timings worked = new("processor time of that, whole process");
    private readonly Timings whole = new("weighing, stable line sent -> acknowledged");
    private readonly Timings least = new("bare INSERT, WAL, synchronous=FULL");
    private TimeSpan first;
    private int taken;

    /// <summary>Takes so many weighings in carried-residue runs of four sieves, checks that they stand in the database and prints the times.</summary>
    public static async Task<int> RunAsync(int weighings)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        await using var balance = new BenchBalance(laboratory.Small.BalanceId, laboratory.Running.Clock);
        using var bare = new BareInsert(Path.GetDirectoryName(laboratory.Running.Database.Place)!);
        await balance.ConnectAsync();
        var path = new WeighingPath(laboratory, balance, bare);
        while (path.taken < weighings + WarmUp)
        {
            await path.CarryOutAsync();
        }

        await path.CheckAsync();
        path.Print();
        return 0;
    }

    private async Task CarryOutAsync()
    {
        var (small, bench) = (laboratory.Small, laboratory.Small.Bench());
        var lot = await small.BookInAsync(small.Calcite);
        await bench.StartAsync(lot.RunId, small.Calcite);
        while (await bench.ViewAsync(lot.RunId) is { Next: { } step } view)
        {
            if (step.Kind == RunStepKind.Sieve)
            {
                await bench.StepAsync(lot.RunId, Powder.Calcite);
            }
            else
            {
                await WeighAsync(lot.RunId, step, TestBench.ExpectedGrams(view, step, Powder.Calcite));
            }
        }

        await bench.SubmitAsync(lot.RunId);
    }

    private async Task WeighAsync(Guid runId, RunStep step, decimal grams)
    {
        var key = string.Create(CultureInfo.InvariantCulture, $"weigh-{runId:N}-{step.Weighing}-{step.Position}");
        var (reading, sent) = await balance.WeighAsync(grams);
        var (read, before) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
        await laboratory.Get<RunWeighing>().TakeAsync(laboratory.Small.People.Technician.Actor, runId, step, reading, key, CancellationToken.None);
        var (acknowledged, after) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
        balance.Taken();
        first = taken == 0 ? Stopwatch.GetElapsedTime(sent, acknowledged) : first;
        if (++taken > WarmUp)
        {
            worked.Add(after - before);
            heard.Add(Stopwatch.GetElapsedTime(sent, read));
            kept.Add(Stopwatch.GetElapsedTime(read, acknowledged));
            whole.Add(Stopwatch.GetElapsedTime(sent, acknowledged));
            bare.Time(least, Encoding.ASCII.GetBytes(reading.RawLine));
        }
    }

    // A path that is fast because it keeps nothing would be worth nothing.
    private async Task CheckAsync()
    {
        await using var data = laboratory.Data();
        var stored = await data.Weighings.CountAsync();
        var record = await laboratory.VerifyRecordAsync();
        if (stored != taken || record.Fault is not null)
        {
            throw new InvalidOperationException($"{taken} weighings were acknowledged and {stored} are stored. {record.Fault}");
        }

        await Console.Out.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{taken} weighings acknowledged and stored (the first {WarmUp} not timed), {record.Events} events, the record's chain holds."));
    }

    private void Print()
    {
        var drive = new DriveInfo(Path.GetDirectoryName(laboratory.Running.Database.Place)!);
        Console.Out.WriteLine($"The files lie on {drive.DriveFormat}.");
        foreach (var timings in (Timings[])[whole, heard, kept, worked, least])
        {
            Console.Out.WriteLine(timings);
        }

        Console.Out.WriteLine(kept.Against(least));
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The very first weighing of the process took {first.TotalMilliseconds:0} ms."));
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The last quarter of the weighings took {kept.LastQuarterToFirst():0.00} times as long as the first."));
    }
}

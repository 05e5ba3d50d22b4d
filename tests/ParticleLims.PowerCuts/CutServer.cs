using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.PowerCuts;

/// <summary>
/// The process that is killed: the laboratory's services behind a line protocol of the campaign. A terminal sends a line and is answered only when the deed is on disk,
/// as a page at the bench says "saved".
/// </summary>
internal sealed class CutServer(ServiceProvider services, CutBench bench)
{
    private static readonly CancellationToken None = CancellationToken.None;

    public static async Task RunAsync(string folder, int port)
    {
        await using var services = await CutServices.OpenAsync(folder);
        var server = new CutServer(services, CutBench.Read(folder));
        await server.CheckBalanceAsync();
        using var listener = new TcpListener(IPAddress.Loopback, port);
        listener.Start();
        while (true)
        {
            _ = server.ServeAsync(await listener.AcceptTcpClientAsync());
        }
    }

    private Task<bool> CheckBalanceAsync() => Get<BalanceTesting>().CheckAsync(
        new Actor(bench.Technicians[0], "T0"), bench.BalanceId, TestBench.Reading(bench.BalanceId, 100m, Now), CheckCircumstances.Ready, null, None);

    private async Task ServeAsync(TcpClient client)
    {
        using var owned = client;
        try
        {
            using var reader = new StreamReader(client.GetStream());
            await using var writer = new StreamWriter(client.GetStream()) { AutoFlush = true, NewLine = "\n" };
            while (await reader.ReadLineAsync() is { } line)
            {
                await writer.WriteLineAsync(await AnswerAsync(line.Split(' ')));
            }
        }
        catch (IOException)
        {
            // The terminal left.
        }
    }

    private async Task<string> AnswerAsync(string[] words)
    {
        try
        {
            var terminal = int.Parse(words[1], CultureInfo.InvariantCulture);
            var actor = new Actor(bench.Technicians[terminal], $"T{terminal}");
            return words[0] switch
            {
                "begin" => await BeginAsync(actor, terminal, words[2]),
                "next" => await NextAsync(actor, Guid.Parse(words[2])),
                "weigh" => await WeighAsync(actor, Guid.Parse(words[2]), words[3]),
                "sieve" => await SieveAsync(actor, Guid.Parse(words[2]), words[3]),
                "submit" => await SubmitAsync(actor, Guid.Parse(words[2]), words[3]),
                _ => "unknown",
            };
        }
        catch (RefusedException refusal)
        {
            return $"refused {refusal.Code}";
        }
    }

    // Every part has a key of its own, so that a begin that is sent again after a cut finds what was done.
    private async Task<string> BeginAsync(Actor actor, int terminal, string number)
    {
        var lot = await Get<LotReception>().BookInAsync(actor, new NewLot($"K-{terminal}-{number}", bench.ProductId, null, new LotParticulars(100m, new DateOnly(2026, 11, 1))), $"lot-{terminal}-{number}", None);
        var sample = new NewSample(lot, bench.MethodVersionId, bench.SpecificationVersionId, new SampleParticulars(null, "Shift", "Scoop, five increments", "White powder", "Dry", SampleDivision.Riffle));
        var booked = await Get<SampleReception>().BookInAsync(actor, sample, $"sample-{terminal}-{number}", None);
        var run = booked.RunIds[0];
        await Get<RunStart>().StartAsync(actor, run, new RunEquipment(bench.BalanceId, bench.Sieves[terminal]), 1, $"start-{terminal}-{number}", null, None);
        return $"run {run}";
    }

    private async Task<string> NextAsync(Actor actor, Guid run)
    {
        var view = await ViewAsync(actor, run);
        return view.Next is { } step
            ? string.Create(CultureInfo.InvariantCulture, $"{(step.Kind == RunStepKind.Sieve ? "sieve" : "weigh")} {step.Weighing?.ToString() ?? "Sieve"}-{step.Position}-{view.Run.Weighings.Count}-{view.Run.Intervals.Count}")
            : view.Run.State is RunState.InProgress ? "submit" : "done";
    }

    private async Task<string> WeighAsync(Actor actor, Guid run, string key)
    {
        var view = await ViewAsync(actor, run);
        var (kind, position) = (Enum.Parse<WeighingKind>(key.Split('-')[0]), int.Parse(key.Split('-')[1], CultureInfo.InvariantCulture));
        var step = RunStep.Weigh(kind, position);
        var taken = await Get<RunWeighing>().TakeAsync(actor, run, step, TestBench.Reading(bench.BalanceId, TestBench.ExpectedGrams(view, step, Powder.Starch), Now), $"{run:N}-{key}", None);
        return $"saved {taken.Id}";
    }

    private async Task<string> SieveAsync(Actor actor, Guid run, string key)
    {
        var position = int.Parse(key.Split('-')[1], CultureInfo.InvariantCulture);
        var view = await ViewAsync(actor, run);
        if (!view.Run.Intervals.Exists(interval => interval.Position == position && interval.EndedAt is null))
        {
            await Get<RunSieving>().BeginAsync(actor, run, position, $"{run:N}-begin-{key}", None);
        }

        await Task.Delay(1_050);
        await Get<RunSieving>().EndAsync(actor, run, position, new PressureSeen(Pressure.FromPascals(3_000), Pressure.FromPascals(3_100), Pressure.FromPascals(3_200)), $"{run:N}-end-{key}", None);
        return "sieved";
    }

    private async Task<string> SubmitAsync(Actor actor, Guid run, string key)
    {
        await Get<RunSubmission>().SubmitAsync(actor, run, $"{run:N}-{key}", None);
        return "submitted";
    }

    private async Task<RunView> ViewAsync(Actor actor, Guid run) => (await Get<RunReading>().FindAsync(actor, run, None))!;

    private DateTimeOffset Now => Get<TimeProvider>().GetUtcNow();

    private T Get<T>()
        where T : notnull => services.GetRequiredService<T>();
}

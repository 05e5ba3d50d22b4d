using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.PowerCuts;

/// <summary>What a campaign found.</summary>
/// <param name="Kills">How often the server was killed.</param>
/// <param name="Acknowledged">Weighings that a terminal was told are saved.</param>
/// <param name="Stored">Weighings in the database at the end.</param>
/// <param name="Lost">Acknowledged weighings that are not in the database.</param>
/// <param name="Doubled">Steps with more than one weighing.</param>
/// <param name="Unanswered">Lines to which no answer came: cut between send and answer, or while the server was down.</param>
/// <param name="Refusals">Refusals, which a terminal that sends again should never meet.</param>
/// <param name="ChainFault">What is wrong with the record's chain; null where nothing is.</param>
public sealed record CampaignResult(int Kills, int Acknowledged, int Stored, int Lost, int Doubled, int Unanswered, IReadOnlyList<string> Refusals, string? ChainFault)
{
    /// <summary>Whether nothing was lost, doubled, refused or broken.</summary>
    public bool IsClean => Lost == 0 && Doubled == 0 && Refusals.Count == 0 && ChainFault is null && Acknowledged > 0;
}

/// <summary>Four terminals carry out runs while the server is killed again and again at moments that a seed chooses.</summary>
public static class Campaign
{
    private const int Terminals = 4;

    /// <summary>Runs a campaign in a folder of its own, which is removed afterwards.</summary>
    /// <param name="kills">How often to kill.</param>
    /// <param name="seed">Chooses the moments.</param>
    /// <param name="progress">Told after each fifty kills; null for nobody.</param>
    public static async Task<CampaignResult> RunAsync(int kills, int seed, Action<string>? progress)
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-cuts-");
        try
        {
            await CutSetUp.RunAsync(folder.FullName, Terminals);
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            return await CutAsync(folder.FullName, kills, new Random(seed), progress);
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        }
    }

    private static async Task<CampaignResult> CutAsync(string folder, int kills, Random random, Action<string>? progress)
    {
        using var ending = new CancellationTokenSource();
        var port = FreePort();
        var terminals = Enumerable.Range(0, Terminals).Select(number => new CutTerminal(number, port, ending.Token)).ToList();
        var working = terminals.ConvertAll(terminal => Task.Run(terminal.RunAsync));
        for (var kill = 1; kill <= kills; kill++)
        {
            using var server = Start(folder, port);
            await AnswersAsync(port, server);
            await WorkAsync(terminals, random);
            server.Kill(entireProcessTree: true);
            await server.WaitForExitAsync();
            if (kill % 50 == 0)
            {
                progress?.Invoke(FormattableString.Invariant($"{kill} kills, {terminals.Sum(terminal => terminal.Acknowledged.Count)} weighings acknowledged"));
            }
        }

        await ending.CancelAsync();
        await Task.WhenAll(working);
        var result = await CompareAsync(folder, kills, terminals);
        terminals.ForEach(terminal => terminal.Dispose());
        return result;
    }

    // A cold server answers slowly, so the moment is chosen by work done: after some weighings, and a few milliseconds into the next.
    private static async Task WorkAsync(List<CutTerminal> terminals, Random random)
    {
        var until = terminals.Sum(terminal => terminal.Acknowledged.Count) + random.Next(1, 24);
        var latest = Stopwatch.StartNew();
        while (terminals.Sum(terminal => terminal.Acknowledged.Count) < until && latest.Elapsed < TimeSpan.FromSeconds(15))
        {
            await Task.Delay(5);
        }

        await Task.Delay(random.Next(0, 60));
    }

    private static async Task<CampaignResult> CompareAsync(string folder, int kills, List<CutTerminal> terminals)
    {
        await using var services = await CutServices.OpenAsync(folder);
        await using var data = await services.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        var stored = await data.Weighings.AsNoTracking().ToListAsync();
        var ids = stored.Select(weighing => weighing.Id).ToHashSet();
        var acknowledged = terminals.SelectMany(terminal => terminal.Acknowledged).ToHashSet();
        return new CampaignResult(
            kills, acknowledged.Count, stored.Count, acknowledged.Count(id => !ids.Contains(id)),
            stored.GroupBy(weighing => (weighing.RunId, weighing.Kind, weighing.Position, weighing.Round)).Count(step => step.Count() > 1),
            terminals.Sum(terminal => terminal.Unanswered), [.. terminals.SelectMany(terminal => terminal.Refusals)], (await RecordVerifier.VerifyAsync(data, null, CancellationToken.None)).Fault?.ToString());
    }

    private static Process Start(string folder, int port)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            ArgumentList = { typeof(Campaign).Assembly.Location, "server", folder, FormattableString.Invariant($"{port}") }, UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true,
        };
        return Process.Start(start)!;
    }

    private static async Task AnswersAsync(int port, Process server)
    {
        for (var tries = 0; tries < 1_200; tries++)
        {
            if (server.HasExited)
            {
                throw new InvalidOperationException($"The server ended at its start: {await server.StandardError.ReadToEndAsync()}");
            }

            try
            {
                using var client = new TcpClient();
                await client.ConnectAsync("127.0.0.1", port);
                return;
            }
            catch (SocketException)
            {
                await Task.Delay(50);
            }
        }

        throw new TimeoutException("The server did not answer within a minute.");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}

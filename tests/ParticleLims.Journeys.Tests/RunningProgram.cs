using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace ParticleLims.Journeys.Tests;

/// <summary>The program as its own process, so that it can be killed as a power cut kills it.</summary>
public sealed class RunningProgram : IAsyncDisposable
{
    private readonly string dataFolder;
    private readonly string[] more;
    private Process? process;

    /// <summary>Names the program; it does not run yet.</summary>
    public RunningProgram(string dataFolder, params string[] more) => (this.dataFolder, this.more, Address) = (dataFolder, more, new Uri($"http://127.0.0.1:{FreePort()}"));

    /// <summary>Where it listens, the same after each start.</summary>
    public Uri Address { get; }

    /// <summary>The lines that it said since its last start.</summary>
    public ConcurrentQueue<string> Said { get; } = new();

    /// <summary>Starts it and waits for its first answer.</summary>
    /// <param name="seconds">How long it may take.</param>
    public async Task StartAsync(int seconds = 60)
    {
        Said.Clear();
        var start = new ProcessStartInfo("dotnet")
        {
            ArgumentList = { Path.Combine(AppContext.BaseDirectory, "ParticleLims.Web.dll"), "--data", dataFolder, "--urls", Address.ToString() },
            UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true,
        };
        foreach (var argument in more)
        {
            start.ArgumentList.Add(argument);
        }

        process = Process.Start(start)!;
        process.OutputDataReceived += (_, line) => Said.Enqueue(line.Data ?? string.Empty);
        process.BeginOutputReadLine();
        var errors = process.StandardError.ReadToEndAsync();
        using var client = new HttpClient();
        for (var tries = 0; tries < seconds * 10; tries++)
        {
            if (process.HasExited)
            {
                throw new InvalidOperationException($"The program ended at its start: {await errors}");
            }

            if (await AnswersAsync(client))
            {
                return;
            }

            await Task.Delay(100);
        }

        throw new TimeoutException($"The program did not answer within {seconds} s.");
    }

    /// <summary>Kills it at once, with nothing flushed and nothing said: kill -9.</summary>
    public async Task KillAsync()
    {
        if (process is { HasExited: false } running)
        {
            running.Kill(entireProcessTree: true);
            await running.WaitForExitAsync();
        }

        process?.Dispose();
        process = null;
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync() => await KillAsync();

    private async Task<bool> AnswersAsync(HttpClient client)
    {
        try
        {
            using var answer = await client.GetAsync(new Uri(Address, "/sign-on"));
            return answer.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}

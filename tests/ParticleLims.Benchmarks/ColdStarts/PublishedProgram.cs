using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace ParticleLims.Benchmarks.ColdStarts;

/// <summary>One start: how long until /sign-on answered 200, the processor time that this took, and the memory that the process then had.</summary>
internal sealed record MeasuredStart(TimeSpan FirstAnswer, TimeSpan Processor, long WorkingSetBytes);

/// <summary>The published program in its folder.</summary>
internal sealed class PublishedProgram(string folder)
{
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(5);
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(3);

    /// <summary>Publishes the program as it stands in the repository.</summary>
    public static async Task<PublishedProgram> PublishAsync(string folder)
    {
        var publishing = Start("dotnet", "publish", Path.Combine(Root(), "src", "ParticleLims.Web"), "-c", "Release", "-o", folder, "-v", "q", "-nodeReuse:false", "-p:UseSharedCompilation=false");
        var said = await publishing.StandardOutput.ReadToEndAsync();
        await publishing.WaitForExitAsync();
        return publishing.ExitCode == 0 ? new PublishedProgram(folder) : throw new InvalidOperationException($"The program could not be published: {said}");
    }

    /// <summary>A port that is free now.</summary>
    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>The shortest start there is: the options in words, without a database and without a server.</summary>
    public async Task<TimeSpan> RunHelpAsync()
    {
        var started = Stopwatch.GetTimestamp();
        using var process = StartProgram("--help");
        await process.WaitForExitAsync();
        return process.ExitCode == 0 ? Stopwatch.GetElapsedTime(started) : throw new InvalidOperationException("--help failed.");
    }

    /// <summary>Starts it, waits for its first answer, and stops it as an operator does.</summary>
    public async Task<MeasuredStart> StartAsync(params string[] arguments)
    {
        var address = new Uri($"http://127.0.0.1:{FreePort()}");
        using var client = new HttpClient { BaseAddress = address };
        var started = Stopwatch.GetTimestamp();
        using var process = StartProgram([.. arguments, "--urls", address.ToString()]);
        try
        {
            while (!await AnswersAsync(client))
            {
                ThrowIfOver(process, started);
                await Task.Delay(BetweenTries);
            }

            var took = Stopwatch.GetElapsedTime(started);
            process.Refresh();
            return new MeasuredStart(took, process.TotalProcessorTime, process.WorkingSet64);
        }
        finally
        {
            await StopAsync(process);
        }
    }

    private static void ThrowIfOver(Process process, long started)
    {
        if (process.HasExited || Stopwatch.GetElapsedTime(started) > Longest)
        {
            throw new InvalidOperationException(process.HasExited ? $"The program ended with {process.ExitCode} at its start." : "The program does not answer.");
        }
    }

    private static async Task<bool> AnswersAsync(HttpClient client)
    {
        try
        {
            using var answer = await client.GetAsync(new Uri("/sign-on", UriKind.Relative));
            return answer.StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    // A program that is killed leaves its database's log to be read at the next start, which would be measured then.
    private static async Task StopAsync(Process process)
    {
        if (!process.HasExited && !OperatingSystem.IsWindows())
        {
            using var kill = Start("kill", "-TERM", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture));
            await kill.WaitForExitAsync();
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
            await process.WaitForExitAsync(patience.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync();
        }
    }

    private Process StartProgram(params string[] arguments)
    {
        var process = Start("dotnet", [Path.Combine(folder, "ParticleLims.Web.dll"), .. arguments]);
        _ = process.StandardOutput.ReadToEndAsync();
        _ = process.StandardError.ReadToEndAsync();
        return process;
    }

    private static Process Start(string program, params string[] arguments) =>
        Process.Start(new ProcessStartInfo(program, arguments) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true })!;

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "ParticleLims.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("The benchmarks are not run from within the repository; name the published program with --published.");
    }
}

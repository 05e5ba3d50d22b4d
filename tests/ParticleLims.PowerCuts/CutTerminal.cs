using System.Collections.Concurrent;
using System.Globalization;
using System.Net.Sockets;

namespace ParticleLims.PowerCuts;

/// <summary>A terminal: carries runs out one after the other, and after a cut sends again, with the same key, what was not answered.</summary>
internal sealed class CutTerminal(int number, int port, CancellationToken ending) : IDisposable
{
    private TcpClient? client;
    private StreamReader? reader;
    private StreamWriter? writer;

    /// <summary>The weighings that were acknowledged here.</summary>
    public ConcurrentBag<Guid> Acknowledged { get; } = [];

    /// <summary>How often an answer did not come.</summary>
    public int Unanswered { get; private set; }

    /// <summary>Refusals other than those of a step that was done before its answer was lost.</summary>
    public ConcurrentBag<string> Refusals { get; } = [];

    /// <inheritdoc />
    public void Dispose()
    {
        reader?.Dispose();
        writer?.Dispose();
        client?.Dispose();
    }

    /// <summary>Works until it is ended.</summary>
    public async Task RunAsync()
    {
        for (var run = 0; !ending.IsCancellationRequested; run++)
        {
            var begun = await AskAsync(string.Create(CultureInfo.InvariantCulture, $"begin {number} {run}"));
            if (begun is not null && !await CarryOutAsync(begun.Split(' ')[1]))
            {
                return;
            }
        }
    }

    private async Task<bool> CarryOutAsync(string run)
    {
        while (await AskAsync(string.Create(CultureInfo.InvariantCulture, $"next {number} {run}")) is { } next)
        {
            if (next == "done")
            {
                return true;
            }

            var words = next.Split(' ');
            var answer = await AskAsync(string.Create(CultureInfo.InvariantCulture, $"{words[0]} {number} {run} {(words.Length > 1 ? words[1] : "submit")}"));
            if (answer?.StartsWith("saved ", StringComparison.Ordinal) == true)
            {
                Acknowledged.Add(Guid.Parse(answer[6..]));
            }
            else if (answer?.StartsWith("refused", StringComparison.Ordinal) == true)
            {
                Refusals.Add($"{next}: {answer}");
            }
        }

        return false;
    }

    // Null only when the campaign ends.
    private async Task<string?> AskAsync(string line)
    {
        while (!ending.IsCancellationRequested)
        {
            try
            {
                await ConnectAsync();
                await writer!.WriteLineAsync(line.AsMemory(), ending);
                if (await reader!.ReadLineAsync(ending) is { } answer)
                {
                    return answer;
                }
            }
            catch (Exception cut) when (cut is IOException or SocketException or OperationCanceledException)
            {
                // The server is gone; the same line is sent again when it is back.
            }

            Unanswered++;
            client?.Dispose();
            client = null;
            await Task.Delay(20, CancellationToken.None);
        }

        return null;
    }

    private async Task ConnectAsync()
    {
        if (client is not null)
        {
            return;
        }

        var fresh = new TcpClient();
        try
        {
            await fresh.ConnectAsync("127.0.0.1", port, ending);
        }
        catch
        {
            fresh.Dispose();
            throw;
        }

        client = fresh;
        reader = new StreamReader(fresh.GetStream());
        writer = new StreamWriter(fresh.GetStream()) { AutoFlush = true, NewLine = "\n" };
    }
}

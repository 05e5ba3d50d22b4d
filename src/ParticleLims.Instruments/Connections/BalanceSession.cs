using System.Text;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>One link to a balance, by cable or network, from the attempt to open it until it ends.</summary>
internal sealed class BalanceSession(BalanceAddress address, BalanceConnectionOptions options, TimeProvider clock)
{
    /// <summary>Runs the session and says in words why it ended.</summary>
    public async Task<string> RunAsync(Action connected, Action<BalanceLine> received, CancellationToken ct)
    {
        using var opening = address.Place.Opening(options, clock);
        try
        {
            if (await opening.OpenAsync(ct) is not { } stream)
            {
                return $"{Place} did not answer in time.";
            }

            connected();
            return await ListenAsync(stream, received, ct);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            // Whatever it was, the connection must go on trying: a bench without its balance stands still.
            return opening.Explain(failure) ?? $"{Place} failed: {failure.Message}";
        }
    }

    private string Place => address.Place.Words;

    private async Task<string> ListenAsync(Stream stream, Action<BalanceLine> received, CancellationToken ct)
    {
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(ct);
        var asking = AskAsync(stream, ended.Token);
        var pipeline = new ReadingPipeline(address.Format, address.ExpectedSerial);
        try
        {
            return await ReceiveAsync(stream, pipeline, received, ct);
        }
        finally
        {
            if (pipeline.End(clock.GetUtcNow()) is { } piece)
            {
                received(piece);
            }

            await ended.CancelAsync();
            await asking;
        }
    }

    private async Task<string> ReceiveAsync(Stream stream, ReadingPipeline pipeline, Action<BalanceLine> received, CancellationToken ct)
    {
        var limit = address.Format.SilenceLimit ?? Timeout.InfiniteTimeSpan;
        using var silence = new CancellationTokenSource(limit, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(silence.Token, ct);
        var buffer = new byte[2048];
        try
        {
            // Waited for from outside too: a driver may hold on to a read that is no longer wanted.
            while (await stream.ReadAsync(buffer, either.Token).AsTask().WaitAsync(either.Token) is var count and > 0)
            {
                foreach (var line in pipeline.Add(buffer.AsSpan(0, count), clock.GetUtcNow()))
                {
                    silence.CancelAfter(limit);
                    received(line);
                }
            }

            return $"{Place} closed the link.";
        }
        catch (OperationCanceledException) when (!ct.IsCancellationRequested)
        {
            return FormattableString.Invariant($"{Place} has sent no line for {limit.TotalSeconds:0.###} s.");
        }
    }

    private async Task AskAsync(Stream stream, CancellationToken ct)
    {
        if (address.Format is not { RequestCommand: { } command, RequestEvery: { } interval })
        {
            return;
        }

        var bytes = Encoding.ASCII.GetBytes(command + address.Format.CommandTerminator);
        using var timer = new PeriodicTimer(interval, clock);
        try
        {
            do
            {
                await stream.WriteAsync(bytes, ct).AsTask().WaitAsync(ct);
            }
            while (await timer.WaitForNextTickAsync(ct));
        }
        catch (Exception end) when (end is OperationCanceledException or IOException or InvalidOperationException)
        {
            // The receiving side meets the same end and gives the reason.
        }
    }
}

using System.Net.Sockets;
using System.Text;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>One TCP link to a balance, from the attempt to connect until it ends.</summary>
internal sealed class BalanceSession(BalanceAddress address, BalanceConnectionOptions options, TimeProvider clock)
{
    /// <summary>Runs the session and says in words why it ended.</summary>
    public async Task<string> RunAsync(Action connected, Action<BalanceLine> received, CancellationToken ct)
    {
        using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        try
        {
            if (!await ConnectAsync(socket, ct))
            {
                return $"{Place} did not answer in time.";
            }

            connected();
            return await ListenAsync(socket, received, ct);
        }
        catch (SocketException failure)
        {
            return Explain(failure.SocketErrorCode);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            // Whatever it was, the connection must go on trying: a bench without its balance stands still.
            return $"{Place} failed: {failure.Message}";
        }
    }

    private string Place => FormattableString.Invariant($"The balance at {address.Host}:{address.Port}");

    private async Task<bool> ConnectAsync(Socket socket, CancellationToken ct)
    {
        using var timeout = new CancellationTokenSource(options.ConnectTimeout, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timeout.Token, ct);
        try
        {
            await socket.ConnectAsync(address.Host, address.Port, either.Token);
        }
        catch (OperationCanceledException) when (!ct.IsCancellationRequested)
        {
            return false;
        }

        KeepAlive(socket);
        return true;
    }

    // A pulled cable ends no TCP link by itself; a balance that may lawfully be silent is watched by the system instead.
    private static void KeepAlive(Socket socket)
    {
        socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime, 5);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval, 2);
        socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount, 3);
    }

    private async Task<string> ListenAsync(Socket socket, Action<BalanceLine> received, CancellationToken ct)
    {
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(ct);
        var asking = AskAsync(socket, ended.Token);
        var pipeline = new ReadingPipeline(address.Format, address.ExpectedSerial);
        try
        {
            return await ReceiveAsync(socket, pipeline, received, ct);
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

    private async Task<string> ReceiveAsync(
        Socket socket, ReadingPipeline pipeline, Action<BalanceLine> received, CancellationToken ct)
    {
        var limit = address.Format.SilenceLimit ?? Timeout.InfiniteTimeSpan;
        using var silence = new CancellationTokenSource(limit, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(silence.Token, ct);
        var buffer = new byte[2048];
        try
        {
            while (await socket.ReceiveAsync(buffer, SocketFlags.None, either.Token) is var count and > 0)
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

    private async Task AskAsync(Socket socket, CancellationToken ct)
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
                await socket.SendAsync(bytes, SocketFlags.None, ct);
            }
            while (await timer.WaitForNextTickAsync(ct));
        }
        catch (Exception end) when (end is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            // The receiving side meets the same end and gives the reason.
        }
    }

    private string Explain(SocketError error) => error switch
    {
        SocketError.ConnectionRefused => $"{Place} refuses the link: is it on, and is the port right?",
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => $"{Place} is not known on the network.",
        SocketError.HostUnreachable or SocketError.NetworkUnreachable => $"{Place} cannot be reached: is the network cable in?",
        SocketError.TimedOut => $"{Place} no longer answers.",
        SocketError.ConnectionReset or SocketError.ConnectionAborted => $"{Place} broke the link.",
        _ => $"{Place} failed: {error}.",
    };
}

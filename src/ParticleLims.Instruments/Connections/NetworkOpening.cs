using System.Net.Sockets;

namespace ParticleLims.Instruments.Connections;

/// <summary>Opens a TCP link.</summary>
internal sealed class NetworkOpening(NetworkPlace place, BalanceConnectionOptions options, TimeProvider clock) : LineOpening
{
    private readonly Socket _socket = new(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };

    public override async Task<Stream?> OpenAsync(CancellationToken ct)
    {
        using var timeout = new CancellationTokenSource(options.ConnectTimeout, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timeout.Token, ct);
        try
        {
            await _socket.ConnectAsync(place.Host, place.Port, either.Token);
        }
        catch (OperationCanceledException) when (!ct.IsCancellationRequested)
        {
            return null;
        }

        KeepAlive();
        return new NetworkStream(_socket, ownsSocket: false);
    }

    public override string? Explain(Exception failure) => (failure as SocketException ?? failure.InnerException as SocketException)?.SocketErrorCode switch
    {
        null => null,
        SocketError.ConnectionRefused => $"{place.Words} refuses the link: is it on, and is the port right?",
        SocketError.HostNotFound or SocketError.NoData or SocketError.TryAgain => $"{place.Words} is not known on the network.",
        SocketError.HostUnreachable or SocketError.NetworkUnreachable => $"{place.Words} cannot be reached: is the network cable in?",
        SocketError.TimedOut => $"{place.Words} no longer answers.",
        SocketError.ConnectionReset or SocketError.ConnectionAborted => $"{place.Words} broke the link.",
        { } error => $"{place.Words} failed: {error}.",
    };

    public override void Dispose() => _socket.Dispose();

    // A pulled cable ends no TCP link by itself; a balance that may lawfully be silent is watched by the system instead.
    private void KeepAlive()
    {
        _socket.SetSocketOption(SocketOptionLevel.Socket, SocketOptionName.KeepAlive, true);
        _socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveTime, 5);
        _socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveInterval, 2);
        _socket.SetSocketOption(SocketOptionLevel.Tcp, SocketOptionName.TcpKeepAliveRetryCount, 3);
    }
}

using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace ParticleLims.Instruments.Simulation;

/// <summary>A TCP server of text lines on the loopback address, for any number of clients.</summary>
internal sealed class LineServer : IAsyncDisposable
{
    private readonly TcpListener _listener;
    private readonly Func<string, string?> _answer;
    private readonly ConcurrentDictionary<LineClient, Task> _clients = [];
    private readonly CancellationTokenSource _ending = new();
    private readonly Task _accepting;

    /// <summary>Listens at once.</summary>
    /// <param name="port">The port, 0 for any free one.</param>
    /// <param name="answer">Answers a line from a client, null to say nothing. Called on background threads.</param>
    /// <exception cref="SocketException">The port is taken.</exception>
    public LineServer(int port, Func<string, string?> answer)
    {
        _answer = answer;
        _listener = new TcpListener(IPAddress.Loopback, port);
        _listener.Start();
        Port = ((IPEndPoint)_listener.LocalEndpoint).Port;
        _accepting = Task.Run(AcceptAsync);
    }

    public int Port { get; }

    public int Clients => _clients.Count;

    public void SendToAll(string line)
    {
        foreach (var client in _clients.Keys)
        {
            client.Send(line);
        }
    }

    public void DropAll()
    {
        foreach (var client in _clients.Keys)
        {
            client.Drop();
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _ending.CancelAsync();
        _listener.Stop();
        await _accepting;
        DropAll();
        await Task.WhenAll(_clients.Values);
        _ending.Dispose();
        _listener.Dispose();
    }

    private async Task AcceptAsync()
    {
        while (!_ending.IsCancellationRequested)
        {
            try
            {
                var client = new LineClient(await _listener.AcceptSocketAsync(_ending.Token), _answer);
                var serving = client.RunAsync();
                _clients.TryAdd(client, serving);
                _ = ForgetAfterAsync(serving, client);
            }
            catch (Exception end) when (end is OperationCanceledException or ObjectDisposedException)
            {
                return;
            }
            catch (SocketException)
            {
                // A client that left before it was accepted is no reason to stop listening.
            }
        }
    }

    private async Task ForgetAfterAsync(Task serving, LineClient client)
    {
        await serving;
        _clients.TryRemove(client, out _);
    }
}

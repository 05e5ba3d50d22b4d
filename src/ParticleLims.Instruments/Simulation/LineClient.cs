using System.Net.Sockets;
using System.Text;
using System.Threading.Channels;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Simulation;

/// <summary>One client of a <see cref="LineServer"/>. A client that does not read loses the oldest lines and holds up nobody.</summary>
internal sealed class LineClient(Socket socket, Func<string, string?> answer)
{
    private const int LongestCommand = 200;
    private const int LinesHeld = 64;

    private readonly LineAssembler _commands = new("\n", LongestCommand);
    private readonly Channel<string> _outgoing = Channel.CreateBounded<string>(
        new BoundedChannelOptions(LinesHeld) { FullMode = BoundedChannelFullMode.DropOldest });

    public void Send(string line) => _outgoing.Writer.TryWrite(line);

    public void Drop()
    {
        _outgoing.Writer.TryComplete();
        socket.Dispose();
    }

    /// <summary>Serves the client until either side ends the link.</summary>
    public async Task RunAsync()
    {
        await Task.WhenAll(UntilTheEndAsync(ReceiveAsync), UntilTheEndAsync(SendAsync));
    }

    private async Task UntilTheEndAsync(Func<Task> work)
    {
        await Task.Yield();
        try
        {
            await work();
        }
        catch (Exception end) when (end is SocketException or ObjectDisposedException)
        {
            // The link has ended, which is all there is to know.
        }
        finally
        {
            Drop();
        }
    }

    private async Task ReceiveAsync()
    {
        var buffer = new byte[512];
        while (await socket.ReceiveAsync(buffer) is var count and > 0)
        {
            foreach (var command in _commands.Add(buffer.AsSpan(0, count)))
            {
                if (answer(command.TrimEnd('\r')) is { } line)
                {
                    Send(line);
                }
            }
        }
    }

    private async Task SendAsync()
    {
        await foreach (var line in _outgoing.Reader.ReadAllAsync())
        {
            ReadOnlyMemory<byte> rest = Encoding.Latin1.GetBytes(line + "\r\n");
            while (!rest.IsEmpty)
            {
                rest = rest[await socket.SendAsync(rest)..];
            }
        }
    }
}

using System.Net.Sockets;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Pressures;

/// <summary>Where a gauge answers and in what unit it shows.</summary>
/// <param name="Host">Host name or IP address.</param>
/// <param name="Port">TCP port, 1 to 65 535.</param>
/// <param name="Unit">The unit of lines that name none.</param>
public sealed record GaugeAddress(string Host, int Port, PressureUnit Unit);

/// <summary>
/// Listens to a pressure gauge on the network, one line a reading, and keeps the last hours of it. After a failure it connects again by itself, waiting longer each time. Thread-safe.
/// </summary>
public sealed class PressureGauge : IAsyncDisposable
{
    private static readonly TimeSpan Kept = TimeSpan.FromHours(3);
    private readonly TimeProvider clock;
    private readonly BalanceConnectionOptions patience;
    private readonly CancellationTokenSource ending = new();
    private readonly Queue<PressurePoint> points = new();
    private readonly Lock gate = new();
    private readonly Task running;
    private int disposed;

    /// <summary>Starts to connect at once, in the background.</summary>
    public PressureGauge(GaugeAddress address, TimeProvider clock, BalanceConnectionOptions? patience = null)
    {
        ArgumentNullException.ThrowIfNull(address);
        (Address, this.clock, this.patience) = (address, clock, patience ?? new BalanceConnectionOptions());
        running = Task.Run(RunAsync);
    }

    /// <summary>Where it answers.</summary>
    public GaugeAddress Address { get; }

    /// <summary>Whether the link stands.</summary>
    public bool IsConnected { get; private set; }

    /// <summary>How many lines were no reading.</summary>
    public int RefusedLines { get; private set; }

    /// <summary>The last reading; null before the first.</summary>
    public PressurePoint? Latest
    {
        get
        {
            lock (gate)
            {
                return points.Count == 0 ? null : points.Last();
            }
        }
    }

    /// <summary>The readings between two moments, both included, as far as they are kept: three hours.</summary>
    public IReadOnlyList<PressurePoint> Between(DateTimeOffset from, DateTimeOffset to)
    {
        lock (gate)
        {
            return [.. points.Where(point => point.At >= from && point.At <= to)];
        }
    }

    /// <summary>Ends the link.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref disposed, 1) == 0)
        {
            await ending.CancelAsync();
            await running;
            ending.Dispose();
        }
    }

    private async Task RunAsync()
    {
        var failures = 0;
        while (!ending.IsCancellationRequested)
        {
            try
            {
                failures = await ListenAsync() ? 1 : failures + 1;
                await Task.Delay(patience.RetryDelay(failures), clock, ending.Token);
            }
            catch (OperationCanceledException) when (ending.IsCancellationRequested)
            {
                return;
            }
        }
    }

    // Answers whether a line came before the link was lost.
    private async Task<bool> ListenAsync()
    {
        var heard = false;
        try
        {
            using var client = new TcpClient();
            using (var connecting = CancellationTokenSource.CreateLinkedTokenSource(ending.Token))
            {
                connecting.CancelAfter(patience.ConnectTimeout);
                await client.ConnectAsync(Address.Host, Address.Port, connecting.Token);
            }

            IsConnected = true;
            var stream = client.GetStream();
            var lines = new LineAssembler("\n", PressureLine.Longest);
            var buffer = new byte[1024];
            int read;
            while ((read = await stream.ReadAsync(buffer, ending.Token)) > 0)
            {
                foreach (var line in lines.Add(buffer.AsSpan(0, read)))
                {
                    heard |= Take(line.TrimEnd('\r'));
                }
            }
        }
        catch (Exception lost) when (lost is SocketException or IOException || (lost is OperationCanceledException && !ending.IsCancellationRequested))
        {
            // The gauge is off, or out of reach; it is tried again.
        }
        finally
        {
            IsConnected = false;
        }

        return heard;
    }

    private bool Take(string line)
    {
        if (PressureLine.Read(line, Address.Unit) is not { } pressure)
        {
            RefusedLines++;
            return false;
        }

        var now = clock.GetUtcNow();
        lock (gate)
        {
            points.Enqueue(new PressurePoint(now, pressure));
            while (points.Peek().At < now - Kept)
            {
                points.Dequeue();
            }
        }

        return true;
    }
}

using System.Globalization;

namespace ParticleLims.Instruments.Simulation;

/// <summary>
/// A pressure gauge that is not there: a TCP server on the loopback address that sends a line every half second, some 3.2 kPa with a little unrest. For training, demonstration and tests;
/// its readings are no measurements.
/// </summary>
public sealed class SimulatedGauge : IAsyncDisposable
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(500);
    private readonly LineServer lines;
    private readonly TimeProvider clock;
    private readonly CancellationTokenSource ending = new();
    private readonly Task sending;
    private readonly Random unrest = new(45);

    private SimulatedGauge(int port, TimeProvider clock)
    {
        this.clock = clock;
        lines = new LineServer(port, _ => null);
        sending = Task.Run(SendAsync);
    }

    /// <summary>The TCP port of the lines.</summary>
    public int Port => lines.Port;

    /// <summary>The pressure about which it moves, in kPa.</summary>
    public double Kilopascals { get; set; } = 3.2;

    /// <summary>Starts a gauge.</summary>
    /// <param name="port">The port, 0 for any free one.</param>
    /// <param name="clock">Paces the lines.</param>
    /// <exception cref="System.Net.Sockets.SocketException">The port is taken.</exception>
    public static SimulatedGauge Start(int port, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        return new SimulatedGauge(port, clock);
    }

    /// <summary>Ends it.</summary>
    public async ValueTask DisposeAsync()
    {
        await ending.CancelAsync();
        await sending;
        await lines.DisposeAsync();
        ending.Dispose();
    }

    private async Task SendAsync()
    {
        using var timer = new PeriodicTimer(Interval, clock);
        var drift = 0.0;
        try
        {
            while (await timer.WaitForNextTickAsync(ending.Token))
            {
                drift = (0.9 * drift) + (0.04 * ((2 * unrest.NextDouble()) - 1));
                lines.SendToAll(string.Create(CultureInfo.InvariantCulture, $"DP {Math.Max(0, Kilopascals + drift):0.000} kPa"));
            }
        }
        catch (OperationCanceledException)
        {
            // It ends.
        }
    }
}

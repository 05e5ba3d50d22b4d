using System.Net;
using System.Net.Sockets;
using System.Text;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Pressures;
using ParticleLims.Instruments.Simulation;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Pressures;

public sealed class PressureGaugeTests
{
    private static readonly BalanceConnectionOptions Quick = new() { FirstRetryDelay = TimeSpan.FromMilliseconds(20), LongestRetryDelay = TimeSpan.FromMilliseconds(50) };

    [Fact]
    public async Task Lines_are_kept_with_their_time_and_what_is_no_reading_is_counted()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        await using var gauge = Gauge(listener);
        var before = DateTimeOffset.UtcNow;
        using var line = await listener.AcceptSocketAsync(TestContext.Current.CancellationToken);
        line.Send(Encoding.ASCII.GetBytes("3.1 kPa\r\n3.3 k"));
        line.Send(Encoding.ASCII.GetBytes("Pa\nnonsense\n3200 Pa\n"));
        await UntilAsync(() => gauge.Latest?.Pressure.Pascals == 3200);
        gauge.IsConnected.ShouldBeTrue();
        gauge.RefusedLines.ShouldBe(1);
        gauge.Between(before, DateTimeOffset.UtcNow).Select(point => point.Pressure.Pascals).ShouldBe([3100, 3300, 3200]);
        gauge.Between(before.AddHours(-1), before.AddSeconds(-1)).ShouldBeEmpty();
    }

    [Fact]
    public async Task A_gauge_that_was_switched_off_is_reached_again_by_itself()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        await using var gauge = Gauge(listener);
        using (var first = await listener.AcceptSocketAsync(TestContext.Current.CancellationToken))
        {
            first.Send("3.1\n"u8);
            await UntilAsync(() => gauge.Latest is not null);
        }

        await UntilAsync(() => !gauge.IsConnected);
        using var second = await listener.AcceptSocketAsync(TestContext.Current.CancellationToken);
        second.Send("2.9\n"u8);
        await UntilAsync(() => gauge.Latest?.Pressure.Pascals == 2900);
    }

    [Fact]
    public async Task The_simulated_gauge_shows_some_three_kilopascals()
    {
        await using var simulated = SimulatedGauge.Start(0, TimeProvider.System);
        await using var gauge = new PressureGauge(new GaugeAddress("127.0.0.1", simulated.Port, PressureUnit.Pascal), TimeProvider.System, Quick);
        await UntilAsync(() => gauge.Latest is not null);
        gauge.Latest!.Pressure.Pascals.ShouldBeInRange(2_500, 3_900);
        gauge.RefusedLines.ShouldBe(0);
    }

    private static PressureGauge Gauge(TcpListener listener) =>
        new(new GaugeAddress("127.0.0.1", ((IPEndPoint)listener.LocalEndpoint).Port, PressureUnit.Kilopascal), TimeProvider.System, Quick);

    private static async Task UntilAsync(Func<bool> holds)
    {
        for (var tries = 0; !holds(); tries++)
        {
            tries.ShouldBeLessThan(1_000, "it comes within twenty seconds");
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }
}

using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Connections;

public sealed class ReconnectionTests
{
    private static readonly Mass Sieve = Mass.FromGrams(287.61m);

    [Fact]
    public async Task After_a_dropped_link_no_mass_is_shown_and_the_balance_is_read_again_by_itself()
    {
        await using var balance = Bench.Start();
        await using var connection = Bench.Connect(balance);
        balance.LoadPan(Sieve);
        await connection.UntilStableAt(Sieve);
        var lost = connection.Until(state => state.Link == BalanceLink.Lost);

        balance.DropConnections();

        var state = await lost;
        state.LatestLine.ShouldBeNull();
        state.LostBecause.ShouldNotBeNull().ShouldEndWith(".");
        state.NextTryAt.ShouldNotBeNull();
        state.LastLineAt.ShouldNotBeNull();
        var again = await connection.UntilStableAt(Sieve);
        again.LostBecause.ShouldBeNull();
        again.Link.ShouldBe(BalanceLink.Connected);
    }

    [Fact]
    public async Task A_balance_switched_on_later_is_found()
    {
        var port = FreePort();
        await using var connection = new BalanceConnection(
            new("127.0.0.1", port, PlainLine.FormatWithChecksum), TimeProvider.System, Bench.Impatient);
        var state = await connection.Until(s => s is { Link: BalanceLink.Lost, FailedTries: >= 3 });
        state.LostBecause.ShouldNotBeNull().ShouldContain("refuses");

        await using var balance = Bench.Start(Bench.Hurried with { Port = port });
        await connection.UntilStableAt(Mass.Zero);
        connection.State.FailedTries.ShouldBe(0);
    }

    [Fact]
    public async Task The_waits_between_attempts_double_up_to_the_longest()
    {
        var clock = new FakeTimeProvider();
        var options = new BalanceConnectionOptions
        {
            FirstRetryDelay = TimeSpan.FromSeconds(1),
            LongestRetryDelay = TimeSpan.FromSeconds(5),
            ConnectTimeout = TimeSpan.FromHours(1),
        };
        await using var connection = new BalanceConnection(new("127.0.0.1", FreePort(), PlainLine.Format), clock, options);
        List<double> waits = [];
        for (var failure = 1; failure <= 5; failure++)
        {
            var state = await connection.Until(s => s.Link == BalanceLink.Lost && s.FailedTries == failure);
            waits.Add((state.NextTryAt!.Value - clock.GetUtcNow()).TotalSeconds);
            await AdvanceUntilTheNextAttempt(connection, clock, failure);
        }

        waits.ShouldBe([1, 2, 4, 5, 5]);
    }

    [Fact]
    public async Task A_balance_that_falls_silent_counts_as_lost()
    {
        await using var balance = Bench.Start(Bench.Hurried with { LineEvery = null });
        var format = balance.Options.Format with { SilenceLimit = TimeSpan.FromMilliseconds(80) };
        await using var connection = new BalanceConnection(new("127.0.0.1", balance.Port, format), TimeProvider.System, Bench.Impatient);

        var state = await connection.Until(s => s.Link == BalanceLink.Lost);

        state.LostBecause.ShouldNotBeNull().ShouldContain("no line for 0.08 s");
    }

    [Fact]
    public async Task Each_line_begins_the_silence_anew()
    {
        var clock = new FakeTimeProvider();
        await using var balance = Bench.Start(Bench.Hurried with { LineEvery = null });
        var format = balance.Options.Format with { SilenceLimit = TimeSpan.FromSeconds(5) };
        await using var connection = new BalanceConnection(new("127.0.0.1", balance.Port, format), clock);
        await Bench.WaitForClients(balance, 1);
        var losses = 0;
        using var subscription = connection.Subscribe(state => losses += state.Link == BalanceLink.Lost ? 1 : 0);
        for (var grams = 1; grams <= 4; grams++)
        {
            balance.SendRaw(PlainLine.Write(Mass.FromGrams(grams), 4, stable: true, "0417", checksum: true));
            await connection.UntilStableAt(Mass.FromGrams(grams));
            clock.Advance(TimeSpan.FromSeconds(4));
        }

        losses.ShouldBe(0);
        var lost = connection.Until(state => state.Link == BalanceLink.Lost);
        clock.Advance(TimeSpan.FromSeconds(1));
        (await lost).LostBecause.ShouldNotBeNull().ShouldContain("no line for 5 s");
    }

    [Fact]
    public async Task A_balance_that_trickles_bytes_but_never_ends_a_line_counts_as_silent()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var format = PlainLine.Format with { SilenceLimit = TimeSpan.FromMilliseconds(100) };
        await using var connection = new BalanceConnection(
            new("127.0.0.1", ((IPEndPoint)listener.LocalEndpoint).Port, format), TimeProvider.System, Bench.Impatient);
        using var socket = await listener.AcceptSocketAsync(TestContext.Current.CancellationToken);
        using var stop = new CancellationTokenSource();
        var trickling = Trickle(socket, stop.Token);

        var state = await connection.Until(s => s.Link == BalanceLink.Lost);

        state.LostBecause.ShouldNotBeNull().ShouldContain("no line");
        await stop.CancelAsync();
        await trickling;
    }

    [Fact]
    public async Task A_moved_balance_is_followed_and_those_who_listen_stay()
    {
        await using var here = Bench.Start();
        await using var there = Bench.Start(Bench.Hurried with { Serial = "0588" });
        await using var connection = Bench.Connect(here);
        await connection.UntilStableAt(Mass.Zero);
        there.LoadPan(Sieve);
        var heard = connection.UntilStableAt(Sieve);

        connection.MoveTo(Bench.AddressOf(there));

        (await heard).Reading!.DeviceSerial.ShouldBe("0588");
    }

    [Fact]
    public async Task An_ended_connection_leaves_the_balance()
    {
        await using var balance = Bench.Start();
        var connection = Bench.Connect(balance);
        await connection.UntilStableAt(Mass.Zero);
        await connection.DisposeAsync();
        var calls = 0;
        using var subscription = connection.Subscribe(_ => calls++);

        await Bench.WaitForClients(balance, 0);
        calls.ShouldBe(0);
    }

    // The wait is registered with the clock a moment after the state tells of it, so one step may come too early.
    private static async Task AdvanceUntilTheNextAttempt(BalanceConnection connection, FakeTimeProvider clock, int failure)
    {
        var next = connection.Until(s => s.FailedTries > failure || s.Link == BalanceLink.Connecting);
        while (!next.IsCompleted)
        {
            clock.Advance(TimeSpan.FromSeconds(1));
            await Task.WhenAny(next, Task.Delay(10));
        }

        await next;
    }

    private static async Task Trickle(Socket socket, CancellationToken ct)
    {
        try
        {
            while (!ct.IsCancellationRequested)
            {
                await socket.SendAsync("1"u8.ToArray(), ct);
                await Task.Delay(10, ct);
            }
        }
        catch (Exception end) when (end is SocketException or OperationCanceledException)
        {
            // The link was given up, as it should be.
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}

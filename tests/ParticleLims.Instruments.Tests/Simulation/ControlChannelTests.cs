using System.Net.Sockets;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Simulation;
using ParticleLims.Instruments.Tests.Connections;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Simulation;

public sealed class ControlChannelTests
{
    [Fact]
    public async Task A_script_loads_the_pan_and_the_balance_is_read_by_the_same_code_as_ever()
    {
        await using var balance = Bench.Start(Bench.Hurried with { ControlPort = 0 });
        await using var connection = Bench.Connect(balance);
        using var script = await Script.Open(balance);

        (await script.Say("PAN 312.3450")).ShouldBe("OK");
        balance.Load.ShouldBe(Mass.FromGrams(312.345m));
        await connection.UntilStableAt(Mass.FromGrams(312.345m));

        (await script.Say("CLEAR")).ShouldBe("OK");
        await connection.UntilStableAt(Mass.Zero);

        var unstable = connection.Until(state => state.Reading is { Stable: false });
        (await script.Say("DISTURB")).ShouldBe("OK");
        await unstable;

        var lost = connection.Until(state => state.Link == BalanceLink.Lost);
        (await script.Say("DROP")).ShouldBe("OK");
        await lost;
        await connection.UntilStableAt(Mass.Zero);

        var damaged = connection.Until(state => state.Rejection?.RawLine == "S + broken");
        (await script.Say("SEND S + broken")).ShouldBe("OK");
        await damaged;
    }

    [Fact]
    public async Task Tare_zero_and_show_are_answered()
    {
        await using var balance = Bench.Start(Bench.Hurried with { ControlPort = 0, LineEvery = null, NoiseSteps = 0, DriftPerHour = default });
        using var script = await Script.Open(balance);
        (await script.Say("PAN 50")).ShouldBe("OK");
        (await script.Say("ZERO")).ShouldStartWith("ERR ");
        (await script.Say("TARE")).ShouldBe("OK");
        var shown = await script.Say("SHOW");
        shown.ShouldStartWith("OK ");
        balance.Options.Format.Parse(shown[3..], DateTimeOffset.UnixEpoch).ShouldBeOfType<BalanceReading>();
        (await script.Say("CLEAR")).ShouldBe("OK");
        (await script.Say("ZERO")).ShouldBe("OK");
    }

    [Theory]
    [InlineData("PAN")]
    [InlineData("PAN ")]
    [InlineData("PAN x")]
    [InlineData("PAN 312,3450")]
    [InlineData("PAN -1")]
    [InlineData("PAN 0.0000001")]
    [InlineData("PAN 1000001")]
    [InlineData("PAN 99999999999999999999")]
    [InlineData("PAN NaN")]
    [InlineData("pan 1")]
    [InlineData("CLEAR 1")]
    [InlineData("")]
    [InlineData("EXPLODE")]
    public async Task What_is_not_understood_is_answered_with_the_reason_and_does_nothing(string command)
    {
        await using var balance = Bench.Start(Bench.Hurried with { ControlPort = 0 });
        balance.LoadPan(Mass.FromGrams(5m));
        using var script = await Script.Open(balance);
        (await script.Say(command)).Length.ShouldBeGreaterThan("ERR ".Length);
        (await script.Say(command)).ShouldStartWith("ERR ");
        balance.Load.ShouldBe(Mass.FromGrams(5m));
    }

    [Fact]
    public async Task Several_clients_are_served_and_one_that_never_reads_holds_up_nobody()
    {
        await using var balance = Bench.Start();
        using var deaf = new TcpClient();
        await deaf.ConnectAsync("127.0.0.1", balance.Port, TestContext.Current.CancellationToken);
        await using var one = Bench.Connect(balance);
        await using var two = Bench.Connect(balance);
        for (var i = 0; i < 2_000; i++)
        {
            balance.SendRaw(new string('x', 500));
        }

        balance.LoadPan(Mass.FromGrams(77m));
        await one.UntilStableAt(Mass.FromGrams(77m));
        await two.UntilStableAt(Mass.FromGrams(77m));
        balance.Clients.ShouldBe(3);
    }

    [Fact]
    public async Task A_stopped_balance_frees_its_ports()
    {
        var first = Bench.Start(Bench.Hurried with { ControlPort = 0 });
        var (port, control) = (first.Port, first.ControlPort);
        await using var connection = Bench.Connect(first);
        await connection.UntilStableAt(Mass.Zero);
        await first.DisposeAsync();
        await first.DisposeAsync();

        await using var second = Bench.Start(Bench.Hurried with { Port = port, ControlPort = control });
        second.LoadPan(Mass.FromGrams(3m));
        await connection.UntilStableAt(Mass.FromGrams(3m));
    }

    [Fact]
    public async Task A_taken_port_is_refused_and_leaves_nothing_listening()
    {
        await using var first = Bench.Start(Bench.Hurried with { ControlPort = 0 });
        Should.Throw<SocketException>(() => Bench.Start(Bench.Hurried with { Port = first.Port }));
        Should.Throw<SocketException>(() => Bench.Start(Bench.Hurried with { ControlPort = first.ControlPort }));
        first.Clients.ShouldBe(0);
    }

    private sealed class Script(TcpClient client) : IDisposable
    {
        private readonly StreamReader _answers = new(client.GetStream());
        private readonly StreamWriter _words = new(client.GetStream()) { AutoFlush = true, NewLine = "\n" };

        public static async Task<Script> Open(SimulatedBalance balance)
        {
            var client = new TcpClient();
            await client.ConnectAsync("127.0.0.1", balance.ControlPort!.Value);
            return new Script(client);
        }

        public async Task<string> Say(string command)
        {
            await _words.WriteLineAsync(command);
            return await _answers.ReadLineAsync().WaitAsync(Bench.Patience) ?? "(closed)";
        }

        public void Dispose()
        {
            _answers.Dispose();
            _words.Dispose();
            client.Dispose();
        }
    }
}

using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Connections;

/// <summary>Ten thousand lines, nine of ten damaged, by each way in: what is read was sent, and the last good line is read.</summary>
public sealed class DamagedFramingTests
{
    private const int Lines = 10_000;
    private static readonly ReadingFormat Format = PlainLine.FormatWithChecksum with { SilenceLimit = null };
    private readonly ConcurrentQueue<BalanceLine> _came = new();
    private BalanceLine? _last;

    [Fact]
    public async Task By_the_network()
    {
        var stream = new DamagedStream(20261, Lines);
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        await using var connection = new BalanceConnection(
            new BalanceAddress("127.0.0.1", ((IPEndPoint)listener.LocalEndpoint).Port, Format, "0417"), TimeProvider.System, Bench.Impatient);
        using var hearing = connection.Subscribe(Hear);
        using var client = await listener.AcceptTcpClientAsync(TestContext.Current.CancellationToken);
        foreach (var piece in stream.Pieces())
        {
            await client.GetStream().WriteAsync(piece, TestContext.Current.CancellationToken);
        }

        await connection.UntilStableAt(DamagedStream.Last);
        ShouldHaveReadOnly(stream);
    }

    [Fact]
    public async Task By_the_servers_port()
    {
        var stream = new DamagedStream(20262, Lines);
        using var port = new PseudoTerminal();
        await using var connection = new BalanceConnection(new BalanceAddress(new SerialPlace(port.Path, new SerialLine()), Format, "0417"), TimeProvider.System, Bench.Impatient);
        using var hearing = connection.Subscribe(Hear);
        await connection.Until(state => state.Link == BalanceLink.Connected);
        await Task.Run(() => stream.Pieces().ToList().ForEach(port.Send), TestContext.Current.CancellationToken);

        await connection.UntilStableAt(DamagedStream.Last);
        ShouldHaveReadOnly(stream);
    }

    [Fact]
    public void By_the_terminals_port_with_pieces_lost_on_the_way()
    {
        var stream = new DamagedStream(20263, Lines);
        var (clock, random, from) = (new FakeTimeProvider(), new Random(7), 0L);
        using var link = new FedLink(Format, "0417", clock);
        using var hearing = link.Subscribe(Hear);
        link.Opened();
        var pieces = stream.Pieces().ToList();
        for (var i = 0; i < pieces.Count; i++)
        {
            clock.Advance(TimeSpan.FromMilliseconds(100));
            if (random.Next(20) > 0 || i >= pieces.Count - 40)
            {
                link.Add(from, pieces[i]);
            }

            from += pieces[i].Length;
        }

        ShouldHaveReadOnly(stream);
    }

    [Fact]
    public void Typed_as_keys()
    {
        var stream = new DamagedStream(20264, Lines);
        var clock = new FakeTimeProvider();
        using var link = new FedLink(Format, "0417", clock);
        using var hearing = link.Subscribe(Hear);
        link.Opened();
        foreach (var line in string.Concat(stream.Lines).Split("\r\n"))
        {
            clock.Advance(TimeSpan.FromMilliseconds(100));
            link.TakeTyped(line, mayBeCut: false);
        }

        ShouldHaveReadOnly(stream);
    }

    private void Hear(BalanceState state)
    {
        if (state.LatestLine is { } line && (!ReferenceEquals(_last, line)))
        {
            _last = line;
            _came.Enqueue(line);
        }
    }

    private void ShouldHaveReadOnly(DamagedStream stream)
    {
        var read = _came.OfType<BalanceReading>().ToList();
        read.ShouldAllBe(reading => stream.Sent.Contains(reading.Mass));
        read[^1].Mass.ShouldBe(DamagedStream.Last);
        read.Count.ShouldBeGreaterThan(300);
        read.ShouldAllBe(reading => PlainLine.Write(reading.Mass, 4, true, "0417", true) == reading.RawLine);
    }
}

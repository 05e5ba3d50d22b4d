using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Connections;

/// <summary>The server's own port, by the real code for serial ports, against a pseudo terminal.</summary>
public sealed class SerialPortTests
{
    private static readonly Mass Sieve = Mass.FromGrams(312.345m);
    private static readonly ReadingFormat Format = PlainLine.FormatWithChecksum with { SilenceLimit = null };

    [Fact]
    public async Task The_mass_is_read_at_the_port_however_its_line_is_cut_on_the_way()
    {
        using var port = new PseudoTerminal();
        await using var connection = Connect(port, Format);
        await connection.Until(state => state.Link == BalanceLink.Connected);

        foreach (var character in LineOf(Sieve))
        {
            port.Send(character.ToString());
        }

        var reading = (await connection.UntilStableAt(Sieve)).Reading.ShouldNotBeNull();
        reading.RawLine.ShouldBe(LineOf(Sieve).TrimEnd());
        connection.RecentLines.ShouldHaveSingleItem().ShouldBe(reading);
    }

    [Fact]
    public async Task Pulling_the_cable_is_told_with_no_mass_left_and_plugging_it_in_reads_on_by_itself()
    {
        using var port = new PseudoTerminal();
        await using var connection = Connect(port, Format);
        await connection.Until(state => state.Link == BalanceLink.Connected);
        port.Send(LineOf(Sieve));
        await connection.UntilStableAt(Sieve);

        port.Unplug();
        var lost = await connection.Until(state => state.Link == BalanceLink.Lost && state.LostBecause!.Contains("not there", StringComparison.Ordinal));
        lost.LatestLine.ShouldBeNull();
        lost.LostBecause.ShouldNotBeNull().ShouldContain(port.Path);

        port.PlugIn();
        await connection.Until(state => state.Link == BalanceLink.Connected);
        port.Send(LineOf(Mass.FromGrams(287.61m)));
        await connection.UntilStableAt(Mass.FromGrams(287.61m));
    }

    [Fact]
    public async Task A_line_that_was_under_way_when_the_cable_was_pulled_never_becomes_a_mass()
    {
        using var port = new PseudoTerminal();
        await using var connection = Connect(port, Format);
        await connection.Until(state => state.Link == BalanceLink.Connected);
        port.Send(LineOf(Sieve)[..12]);
        await Task.Delay(100, TestContext.Current.CancellationToken);

        port.Unplug();
        await connection.Until(state => state.Link == BalanceLink.Lost);
        connection.RecentLines.ShouldHaveSingleItem().ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.Partial);
    }

    [Fact]
    public async Task A_silent_balance_at_the_port_is_told()
    {
        using var port = new PseudoTerminal();
        await using var connection = Connect(port, Format with { SilenceLimit = TimeSpan.FromMilliseconds(200) });
        var lost = await connection.Until(state => state.Link == BalanceLink.Lost);
        lost.LostBecause.ShouldNotBeNull().ShouldContain("no line for 0.2 s");
    }

    [Fact]
    public async Task A_balance_that_answers_only_when_asked_is_asked_at_the_port()
    {
        using var port = new PseudoTerminal();
        await using var connection = Connect(port, Format with { RequestCommand = "READ", RequestEvery = TimeSpan.FromMilliseconds(20) });
        await connection.Until(state => state.Link == BalanceLink.Connected);
        var asked = string.Empty;
        var deadline = TimeProvider.System.GetTimestamp();
        while (!asked.Contains("READ\r\n", StringComparison.Ordinal) && TimeProvider.System.GetElapsedTime(deadline) < Bench.Patience)
        {
            asked += port.Received();
            await Task.Delay(5, TestContext.Current.CancellationToken);
        }

        asked.ShouldContain("READ\r\n");
        port.Send(LineOf(Sieve));
        await connection.UntilStableAt(Sieve);
    }

    [Theory]
    [InlineData(1_200, 7, LineParity.Even, 2)]
    [InlineData(115_200, 8, LineParity.Odd, 1)]
    public async Task The_line_settings_are_taken(int baudRate, int dataBits, LineParity parity, int stopBits)
    {
        using var port = new PseudoTerminal();
        await using var connection = new BalanceConnection(
            new BalanceAddress(new SerialPlace(port.Path, new SerialLine(baudRate, dataBits, parity, stopBits)), Format), TimeProvider.System, Bench.Impatient);
        (await connection.Until(state => state.Link != BalanceLink.Connecting)).Link.ShouldBe(BalanceLink.Connected);
    }

    [Fact]
    public async Task A_file_that_is_no_port_is_refused_in_words_and_tried_again()
    {
        var file = Path.GetTempFileName();
        try
        {
            await using var connection = new BalanceConnection(new BalanceAddress(new SerialPlace(file, new SerialLine()), Format), TimeProvider.System, Bench.Impatient);
            var lost = await connection.Until(state => state.FailedTries >= 2 && state.Link == BalanceLink.Lost);
            lost.LostBecause.ShouldNotBeNull().ShouldContain(file);
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Theory]
    [InlineData("", 9_600, 8, 1)]
    [InlineData("/dev/ttyS0", 9, 8, 1)]
    [InlineData("/dev/ttyS0", 9_600, 9, 1)]
    [InlineData("/dev/ttyS0", 9_600, 8, 3)]
    public void A_port_that_cannot_work_is_refused(string device, int baudRate, int dataBits, int stopBits) =>
        new SerialPlace(device, new SerialLine(baudRate, dataBits, LineParity.None, stopBits)).Problems().ShouldNotBeEmpty();

    private static BalanceConnection Connect(PseudoTerminal port, ReadingFormat format) =>
        new(new BalanceAddress(new SerialPlace(port.Path, new SerialLine()), format, "0417"), TimeProvider.System, Bench.Impatient);

    private static string LineOf(Mass mass) => PlainLine.Write(mass, 4, stable: true, "0417", checksum: true) + "\r\n";
}

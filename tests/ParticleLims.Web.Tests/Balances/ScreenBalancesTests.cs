using System.Text;
using Microsoft.Extensions.Logging.Abstractions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Balances;
using ParticleLims.Web.Readings;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Balances;

/// <summary>Balances whose lines come in at a terminal, in the real program.</summary>
public sealed class ScreenBalancesTests : IAsyncLifetime
{
    private static readonly Mass Sieve = Mass.FromGrams(312.345m);
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync()
    {
        web = await (await RunningWeb.StartAsync()).SetUpAsync();
        await web.Get<KnownFormats>().RefreshAsync(default);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public void One_terminal_cannot_feed_the_run_of_another()
    {
        var balance = At(WayIn.TerminalPort);
        using var here = Screen();
        using var there = Screen();
        Send(here.FedBy(balance)!);
        here.Of(balance)!.State.Reading!.Mass.ShouldBe(Sieve);
        there.Of(balance)!.State.LatestLine.ShouldBeNull();
    }

    [Fact]
    public void A_balance_that_the_server_reaches_is_fed_by_no_screen()
    {
        using var screen = Screen();
        screen.FedBy(At(WayIn.Network)).ShouldBeNull();
        screen.FedBy(At(WayIn.ServerPort)).ShouldBeNull();
        web.Get<BalanceLines>().Of(At(WayIn.TerminalPort)).ShouldBeNull("the server reaches for no balance of a terminal");
    }

    [Fact]
    public void Another_way_or_line_setting_is_another_link_and_the_same_stays_one()
    {
        var balance = At(WayIn.TerminalPort);
        using var screen = Screen();
        var link = screen.FedBy(balance);
        screen.FedBy(balance).ShouldBeSameAs(link);
        balance.BaudRate = 2_400;
        screen.FedBy(balance).ShouldNotBeSameAs(link);
    }

    [Fact]
    public void A_reading_keeps_its_way_in_and_a_line_that_came_before_the_step_is_not_taken_for_it()
    {
        var balance = At(WayIn.TerminalPort);
        using var screen = Screen();
        var link = screen.FedBy(balance)!;
        Send(link);
        using var live = new LiveBalance(link, balance, new StableReadingRules { HoldFor = TimeSpan.Zero }, lastLoadMayBeOnPan: false, TimeProvider.System);
        live.Look().Latest.ShouldBeNull();
        link.Lost("The cable is out.");
        Send(link);
        live.ForLaboratory(live.Look().Ready!).WayIn.ShouldBe(WayIn.TerminalPort);
    }

    private static void Send(FedLink link)
    {
        link.Opened();
        link.Add(0, Encoding.ASCII.GetBytes(PlainLine.Write(Sieve, 3, stable: true, "0417", checksum: true) + "\r\n"));
    }

    private static Balance At(WayIn way) => new()
    {
        Id = new Guid("0195f000-0000-7000-8000-000000000001"), Serial = "0417", Name = "Bench", Place = "Bench", Host = "127.0.0.1", Port = 4001, Device = "/dev/ttyUSB9", ReadingFormat = "Plain line with checksum", WayIn = way,
    };

    private ScreenBalances Screen() => new(web.Get<BalanceLines>(), web.Get<KnownFormats>(), new RefusedLines(NullLogger<RefusedLines>.Instance), TimeProvider.System);
}

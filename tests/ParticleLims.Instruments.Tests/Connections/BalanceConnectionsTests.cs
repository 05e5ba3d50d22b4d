using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Connections;

public sealed class BalanceConnectionsTests
{
    private static readonly Guid Balance1 = Guid.Parse("0195f000-0000-7000-8000-000000000001");
    private static readonly Guid Balance2 = Guid.Parse("0195f000-0000-7000-8000-000000000002");

    [Fact]
    public async Task A_balance_has_one_link_however_many_ask_for_it_at_once()
    {
        await using var balance = Bench.Start();
        await using var connections = new BalanceConnections(TimeProvider.System, Bench.Impatient);
        var asked = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => Task.Run(() => Ensure(connections, Balance1, balance))));
        await asked[0].UntilStableAt(Mass.Zero);

        asked.ShouldAllBe(connection => ReferenceEquals(connection, asked[0]));
        connections.Get(Balance1).ShouldBeSameAs(asked[0]);
        balance.Clients.ShouldBe(1);
    }

    [Fact]
    public async Task Two_balances_do_not_mix()
    {
        await using var one = Bench.Start();
        await using var two = Bench.Start(Bench.Hurried with { Serial = "0588" });
        await using var connections = new BalanceConnections(TimeProvider.System, Bench.Impatient);
        one.LoadPan(Mass.FromGrams(10m));
        two.LoadPan(Mass.FromGrams(20m));

        await Ensure(connections, Balance1, one).UntilStableAt(Mass.FromGrams(10m));
        await Ensure(connections, Balance2, two).UntilStableAt(Mass.FromGrams(20m));

        connections.States().Keys.ShouldBe([Balance1, Balance2], ignoreOrder: true);
    }

    [Fact]
    public async Task A_changed_address_moves_the_same_connection()
    {
        await using var one = Bench.Start();
        await using var two = Bench.Start(Bench.Hurried with { Serial = "0588" });
        await using var connections = new BalanceConnections(TimeProvider.System, Bench.Impatient);
        two.LoadPan(Mass.FromGrams(20m));
        var before = Ensure(connections, Balance1, one);

        var after = Ensure(connections, Balance1, two);

        after.ShouldBeSameAs(before);
        (await before.UntilStableAt(Mass.FromGrams(20m))).Reading!.DeviceSerial.ShouldBe("0588");
    }

    [Fact]
    public async Task A_disconnected_balance_is_forgotten_and_an_ended_registry_makes_no_more()
    {
        await using var balance = Bench.Start();
        var connections = new BalanceConnections(TimeProvider.System, Bench.Impatient);
        var connection = Ensure(connections, Balance1, balance);
        await connections.DisconnectAsync(Balance1);
        connections.Get(Balance1).ShouldBeNull();
        connection.State.Link.ShouldBe(BalanceLink.Lost);

        await connections.DisposeAsync();
        Should.Throw<ObjectDisposedException>(() => Ensure(connections, Balance1, balance));
    }

    private static BalanceConnection Ensure(
        BalanceConnections connections, Guid id, Instruments.Simulation.SimulatedBalance balance) =>
        connections.EnsureConnected(id, Bench.AddressOf(balance));
}

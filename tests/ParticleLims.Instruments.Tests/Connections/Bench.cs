using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Simulation;
using Shouldly;

namespace ParticleLims.Instruments.Tests.Connections;

/// <summary>A hurried simulated balance and the means to wait for what it does.</summary>
internal static class Bench
{
    // Long, because it only bounds a failure: each wait ends as soon as what is waited for happens.
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    public static readonly SimulatedBalanceOptions Hurried = new()
    {
        Readability = Mass.FromMicrograms(100),
        Capacity = Mass.FromGrams(1_000m),
        SpeedFactor = 20,
        LineEvery = TimeSpan.FromMilliseconds(5),
    };

    public static readonly BalanceConnectionOptions Impatient = new()
    {
        FirstRetryDelay = TimeSpan.FromMilliseconds(10),
        LongestRetryDelay = TimeSpan.FromMilliseconds(50),
    };

    public static SimulatedBalance Start(SimulatedBalanceOptions? options = null) =>
        SimulatedBalance.Start(options ?? Hurried, TimeProvider.System);

    public static BalanceConnection Connect(SimulatedBalance balance) =>
        new(AddressOf(balance), TimeProvider.System, Impatient);

    public static BalanceAddress AddressOf(SimulatedBalance balance) =>
        new("127.0.0.1", balance.Port, balance.Options.Format, balance.Options.Serial);

    public static async Task<BalanceState> Until(this BalanceConnection connection, Func<BalanceState, bool> wanted)
    {
        var found = new TaskCompletionSource<BalanceState>(TaskCreationOptions.RunContinuationsAsynchronously);
        using var subscription = connection.Subscribe(Look);
        Look(connection.State);
        return await found.Task.WaitAsync(Patience);

        void Look(BalanceState state)
        {
            if (wanted(state))
            {
                found.TrySetResult(state);
            }
        }
    }

    public static Task<BalanceState> UntilStableAt(this BalanceConnection connection, Mass mass) =>
        connection.Until(state => state.Reading is { Stable: true } reading && Math.Abs((reading.Mass - mass).Micrograms) <= 100);

    public static async Task WaitForClients(SimulatedBalance balance, int count)
    {
        var deadline = TimeProvider.System.GetUtcNow() + Patience;
        while (balance.Clients != count && TimeProvider.System.GetUtcNow() < deadline)
        {
            await Task.Delay(2);
        }

        balance.Clients.ShouldBe(count);
    }
}

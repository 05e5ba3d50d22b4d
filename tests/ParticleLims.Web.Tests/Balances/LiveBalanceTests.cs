using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Simulation;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Balances;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Balances;

/// <summary>Against a real TCP server on a free port.</summary>
public sealed class LiveBalanceTests : IAsyncLifetime
{
    private static readonly StableReadingRules Rules = new() { HoldFor = TimeSpan.FromMilliseconds(100), PanMustReturnToZero = true };
    private readonly SimulatedBalance simulated = SimulatedBalance.Start(new SimulatedBalanceOptions { SpeedFactor = 40, LineEvery = TimeSpan.FromMilliseconds(10), NoiseSteps = 0 }, TimeProvider.System);
    private readonly BalanceConnections connections = new(TimeProvider.System);
    private readonly Balance balance = new() { Id = Guid.CreateVersion7(), Serial = "0417", Name = "Bench 1", Place = "Bench 1", Host = "127.0.0.1", ReadingFormat = "Plain line with checksum" };

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        await connections.DisposeAsync();
        await simulated.DisposeAsync();
    }

    [Fact]
    public async Task One_load_is_offered_once_until_the_pan_was_seen_empty()
    {
        using var live = Follow();
        simulated.LoadPan(Mass.FromGrams(250m));
        await UntilAsync(live, progress => progress.Ready is not null);
        var taken = live.ForLaboratory(live.Look().Ready!);
        (taken.BalanceId, taken.Mass, taken.Stable).ShouldBe((balance.Id, Mass.FromGrams(250m), true));

        live.Taken(null);
        live.Progress.WaitsFor.ShouldBe(WaitReason.ClearedPan);
        simulated.ClearPan();
        await UntilAsync(live, progress => progress.WaitsFor == WaitReason.Load);
        simulated.LoadPan(Mass.FromGrams(260m));
        await UntilAsync(live, progress => progress.Ready?.Mass == Mass.FromGrams(260m));
    }

    [Fact]
    public async Task A_screen_that_was_left_hears_nothing_more()
    {
        var live = Follow();
        await UntilAsync(live, progress => progress.Latest is not null);
        live.Dispose();
        var last = live.Progress.Latest;
        simulated.LoadPan(Mass.FromGrams(100m));
        using var other = Follow();
        await UntilAsync(other, progress => progress.Ready is not null);
        live.Progress.Latest.ShouldBe(last);
    }

    private LiveBalance Follow() =>
        new(connections.EnsureConnected(balance.Id, new BalanceAddress("127.0.0.1", simulated.Port, PlainLine.FormatWithChecksum)), balance, Rules, lastLoadMayBeOnPan: false, TimeProvider.System);

    private static async Task UntilAsync(LiveBalance live, Func<WatchProgress, bool> holds)
    {
        var came = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        void Look(object? sender, EventArgs change)
        {
            if (holds(live.Progress))
            {
                came.TrySetResult();
            }
        }

        live.Changed += Look;
        await came.Task.WaitAsync(TimeSpan.FromSeconds(20));
        live.Changed -= Look;
    }
}

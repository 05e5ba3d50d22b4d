using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using ParticleLims.Web.Runs;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Runs;

public sealed class AutomaticTakingTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private static readonly BalanceReading Reading = new(Mass.FromGrams(250m), 3, Mass.FromMicrograms(1_000), Stable: true, "S +    250.000 g 0417", Start, "0417");
    private static readonly WatchProgress Ready = new(WaitReason.Nothing, 1, Reading);
    private static readonly WatchProgress Holding = new(WaitReason.Hold, 0.5, Reading);

    private readonly AutomaticTaking taking = new(TimeSpan.FromSeconds(2));

    [Fact]
    public void A_stable_plausible_reading_is_due_when_the_countdown_is_over()
    {
        At(0, Holding).ShouldBe(TakingState.Waiting);
        At(1, Ready).ShouldBe(TakingState.CountingDown);
        At(2.9, Ready).ShouldBe(TakingState.CountingDown);
        At(3, Ready).ShouldBe(TakingState.Due);
    }

    [Fact]
    public void A_touch_stops_the_countdown_until_somebody_lets_it_go_on()
    {
        At(0, Ready);
        taking.Touch();
        At(60, Ready).ShouldBe(TakingState.Held);
        taking.GoOn();
        At(61, Ready).ShouldBe(TakingState.CountingDown);
        At(62.9, Ready).ShouldBe(TakingState.CountingDown);
    }

    [Fact]
    public void A_touch_before_the_countdown_stops_nothing()
    {
        At(0, Holding);
        taking.Touch();
        At(1, Ready).ShouldBe(TakingState.CountingDown);
    }

    [Fact]
    public void An_implausible_mass_is_never_due()
    {
        At(0, Ready, plausible: false).ShouldBe(TakingState.Implausible);
        At(60, Ready, plausible: false).ShouldBe(TakingState.Implausible);
    }

    [Fact]
    public void A_disturbed_reading_begins_the_countdown_anew()
    {
        At(0, Ready);
        At(1.9, Holding).ShouldBe(TakingState.Waiting);
        At(2.1, Ready).ShouldBe(TakingState.CountingDown);
        At(4, Ready).ShouldBe(TakingState.CountingDown);
        At(4.2, Ready).ShouldBe(TakingState.Due);
    }

    private TakingState At(double seconds, WatchProgress progress, bool plausible = true) => taking.Observe(Start.AddSeconds(seconds), progress, plausible);
}

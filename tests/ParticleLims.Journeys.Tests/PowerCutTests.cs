using ParticleLims.PowerCuts;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>The server is killed as a power cut kills it while four terminals weigh. tests/cuts does the same hundreds of times.</summary>
public sealed class PowerCutTests
{
    private const int Kills = 12;

    [Fact]
    public async Task No_acknowledged_weighing_is_lost_and_none_is_doubled_when_the_server_is_killed_again_and_again()
    {
        var result = await Campaign.RunAsync(Kills, seed: 20261126, progress: null);
        result.Refusals.ShouldBeEmpty();
        result.ChainFault.ShouldBeNull();
        result.Acknowledged.ShouldBeGreaterThan(0);
        result.Lost.ShouldBe(0);
        result.Doubled.ShouldBe(0);
    }
}

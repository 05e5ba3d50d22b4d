using System.Collections.Concurrent;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>
/// Random walks over the states of lots, samples, runs, investigations, retest plans and versions, by random people: what the rules allow succeeds, what they forbid is refused and leaves nothing
/// behind, and after each step the database shows the states that the rules say.
/// </summary>
public sealed class AnyWayOfALotTests
{
    private const int StepsOfAWalk = 70;

    [Theory]
    [EachDatabase]
    public async Task Whatever_people_do_the_laboratory_and_its_rules_agree_and_every_transition_is_walked(DatabaseKind kind)
    {
        var seen = new ConcurrentDictionary<string, int>(StringComparer.Ordinal);
        await Parallel.ForEachAsync(Enumerable.Range(0, SeededWalks.SeedCount), new ParallelOptions { MaxDegreeOfParallelism = 2 }, async (seed, _) =>
        {
            foreach (var transition in await SeededWalks.GoAsync(kind, seed, StepsOfAWalk))
            {
                seen.AddOrUpdate(transition, 1, (_, count) => count + 1);
            }
        });
        seen.Keys.Order(StringComparer.Ordinal).Except(Transitions.All).ShouldBeEmpty("transitions that the table does not know");
        Transitions.All.Except(seen.Keys).ShouldBeEmpty("transitions that no walk has taken");
    }
}

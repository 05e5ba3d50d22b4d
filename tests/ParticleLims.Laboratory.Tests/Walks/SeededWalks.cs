namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Walks from seeds; where one fails its steps are told, after those that have no part in the failure are left out.</summary>
internal static class SeededWalks
{
    private const int TriesToShrink = 40;
    private const int SeedsOfChance = 24;

    /// <summary>How many openings there are.</summary>
    public static int OpeningCount => Openings.Length;

    /// <summary>How walks begin, in turn: deeds that the model allows, so that chance starts from different places.</summary>
    private static readonly (string Deed, int Variant)[][] Openings =
    [
        [],
        [.. Run(0)],
        [.. Run(1)],
        [.. Run(1), ("accepts run", 0), ("answers the points of case", 1)],
        [.. Run(1), ("accepts run", 0), ("answers the points of case", 0), ("opens the full phase of case", 0), ("says that no other lot is touched in case", 0)],
        [.. Run(0), ("accepts run", 0), ("releases lot", 0)],
        [.. Run(1), ("answers the points of case", 1), ("permits a new sample in case", 0), ("books in a sample of lot", 0), .. Run(0).Skip(2), ("accepts run", 0), ("accepts run", 0), ("concludes case", 1)],
        [.. Run(1), ("answers the points of case", 1), ("proposes retests in case", 1), ("approves the retests of case", 0)],
        [.. Run(1), ("accepts run", 0), ("answers the points of case", 0), ("opens the full phase of case", 0), ("says that no other lot is touched in case", 0), ("concludes case", 0), ("proposes a concession for lot", 0), ("concedes lot", 0)],
        [.. Run(0), ("returns run", 0)],
        [.. Run(0), ("accepts run", 0), ("signs the invalidation of run", 0)],
        [.. Run(1), ("answers the points of case", 1), ("concludes case", 1)],
        [.. Run(1), ("accepts run", 0), ("answers the points of case", 1), ("proposes retests in case", 0), ("withdraws the retests of case", 0), ("concludes case", 1)],
    ];

    /// <summary>What chance hardly ever comes to: each is walked once, after the others, and goes no further.</summary>
    private static readonly (string Deed, int Variant)[][] Rare =
    [
        [.. Openings[6], ("signs the invalidation of run", 0)],
        [.. Openings[11], ("signs the invalidation of run", 0)],
        [.. Openings[11], ("accepts run", 0), ("proposes a concession for lot", 0), ("concedes lot", 0)],
        [.. Run(0), ("accepts run", 0), ("holds lot", 0)],
    ];

    /// <summary>How many seeds there are.</summary>
    public static int SeedCount => SeedsOfChance + Rare.Length;

    /// <summary>Begins a walk by one of the openings.</summary>
    public static async Task<Walk> BeginAsync(DatabaseKind kind, int opening, Func<Walk, Task> beforeEach)
    {
        var walk = await Walk.BeginAsync(kind, alone: false);
        foreach (var (deed, variant) in Openings[opening % Openings.Length])
        {
            await beforeEach(walk);
            await walk.TakeAsync(walk.First(deed, variant));
        }

        return walk;
    }

    /// <summary>Walks once from a seed; answers the transitions that were seen.</summary>
    public static async Task<IReadOnlyCollection<string>> GoAsync(DatabaseKind kind, int seed, int steps)
    {
        var random = new Random(seed);
        var alone = seed % 7 == 6;
        var taken = new List<WalkStep>();
        try
        {
            await using var walk = await Walk.BeginAsync(kind, alone);
            foreach (var (deed, variant) in seed < SeedsOfChance ? Openings[seed % Openings.Length] : Rare[seed - SeedsOfChance])
            {
                await TakeAsync(walk.First(deed, variant));
            }

            while (seed < SeedsOfChance && walk.Steps.Count < steps)
            {
                await TakeAsync(walk.Choose(random));
            }

            if (seed % 3 == 0)
            {
                // It asks for every row and every signature of the laboratory, which takes as long as a part of the walk.
                (await walk.FaultsOfTheRecordAsync()).ShouldBeEmpty("after the whole walk");
            }

            return walk.Transitions;

            async Task TakeAsync(WalkStep step)
            {
                taken.Add(step);
                await walk.TakeAsync(step);
            }
        }
        catch (ShouldAssertException first)
        {
            var (shrunk, failure) = await ShrinkAsync(kind, alone, taken, first);
            throw new ShouldAssertException($"Walk {seed} on {kind}{(alone ? ", one person may do everything" : string.Empty)}, its steps without those that have no part in it:\n  {string.Join("\n  ", shrunk)}\n{failure.Message}", failure);
        }
    }

    private static async Task<(List<WalkStep> Steps, ShouldAssertException Failure)> ShrinkAsync(DatabaseKind kind, bool alone, List<WalkStep> steps, ShouldAssertException failure)
    {
        var (kept, left) = (steps, TriesToShrink);
        for (var size = Math.Max(1, kept.Count / 2); size >= 1; size /= 2)
        {
            for (var at = kept.Count - size; at >= 0 && left > 0; at -= size, left--)
            {
                List<WalkStep> fewer = [.. kept[..at], .. kept[Math.Min(kept.Count, at + size)..]];
                if (await FailsAsync(kind, alone, fewer) is { } still)
                {
                    (kept, failure) = (fewer, still);
                }
            }
        }

        return (kept, failure);
    }

    private static async Task<ShouldAssertException?> FailsAsync(DatabaseKind kind, bool alone, List<WalkStep> steps)
    {
        try
        {
            await using var walk = await Walk.BeginAsync(kind, alone);
            foreach (var step in steps)
            {
                await walk.TakeAsync(step);
            }

            (await walk.FaultsOfTheRecordAsync()).ShouldBeEmpty("after the whole walk");
            return null;
        }
        catch (ShouldAssertException failure)
        {
            return failure;
        }
    }

    private static IEnumerable<(string Deed, int Variant)> Run(int variant) =>
    [
        ("books in a lot beside", 0), ("books in a sample of lot", 0), ("starts run", 0), ("does the next step of run", 0), ("does the next step of run", 0), ("does the next step of run", 0), ("does the next step of run", variant), ("submits run", 0),
    ];
}

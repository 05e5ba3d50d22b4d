using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>One walk through a laboratory of its own: each step is done in the model and in the laboratory, and then both are compared.</summary>
internal sealed class Walk : IAsyncDisposable
{
    private readonly Hand hand;
    private readonly List<WalkStep> refused = [];
    private List<string> states;

    // Of every table, where nothing was done since; null after anything was.
    private string? sum;

    private Walk(Hand hand, ModelLaboratory model, List<string> states) => (this.hand, Model, this.states) = (hand, model, states);

    public ModelLaboratory Model { get; }

    /// <summary>What was done, in order.</summary>
    public List<WalkStep> Steps { get; } = [];

    /// <summary>Each change of a state that was seen: "run Planned -> InProgress: starts run".</summary>
    public HashSet<string> Transitions { get; } = new(StringComparer.Ordinal);

    public static async Task<Walk> BeginAsync(DatabaseKind kind, bool alone)
    {
        var (hand, model) = await Hand.OpenAsync(kind, alone);
        var walk = new Walk(hand, model, await hand.StatesAsync());
        walk.states.ShouldBe(model.States(), ignoreOrder: true);
        return walk;
    }

    /// <summary>Chooses a step: mostly one that the model allows, sometimes one that it forbids. The choice rests on the model and the generator alone, so it is the same on both databases.</summary>
    public WalkStep Choose(Random random, double shareAllowed = 0.8)
    {
        var allowed = random.NextDouble() < shareAllowed;
        var open = WalkDeed.All.Select(deed => (Deed: deed, Moments: deed.Moments(Model).Where(at => deed.Reasons(at).Count == 0 == allowed).ToList())).Where(one => one.Moments.Count > 0).ToList();
        var place = random.Next(open.Sum(one => allowed ? one.Deed.Weight : 1));
        foreach (var (deed, moments) in open)
        {
            place -= allowed ? deed.Weight : 1;
            if (place < 0)
            {
                var at = moments[random.Next(moments.Count)];
                return new WalkStep(deed.Name, at.Subject, at.Person, at.Variant);
            }
        }

        throw new InvalidOperationException("Nothing can be done.");
    }

    /// <summary>The first step that the model allows of a deed, in a certain way.</summary>
    public WalkStep First(string deed, int variant)
    {
        var of = WalkDeed.All.Single(one => one.Name == deed);
        var at = of.Moments(Model).First(moment => moment.Variant == variant && of.Reasons(moment).Count == 0);
        return new WalkStep(deed, at.Subject, at.Person, variant);
    }

    /// <summary>Does a step in both and compares them. Answers false where the step has nothing to be done to, as when an earlier one was left out.</summary>
    /// <exception cref="ShouldAssertException">They differ.</exception>
    public async Task<bool> TakeAsync(WalkStep step)
    {
        var deed = WalkDeed.All.Single(one => one.Name == step.Deed);
        var at = deed.Moments(Model).FirstOrDefault(moment => (moment.Subject, moment.Person, moment.Variant) == (step.Subject, step.Person, step.Variant));
        if (at is null)
        {
            return false;
        }

        Steps.Add(step);
        var reasons = deed.Reasons(at);
        if (reasons.Count > 0)
        {
            await RefusedAsync(deed, at, reasons);
            await NothingWrittenAsync();
            return true;
        }

        hand.Pass(TimeSpan.FromMinutes(1));
        await FirstAsync(deed, at);
        sum = null;
        await Should.NotThrowAsync(() => deed.Act(hand, at), $"the model allows: {step}");
        var before = Told();
        deed.Changes(at);
        await CompareAsync();
        Note(before, deed.Name);
        return true;
    }

    /// <summary>Tries everything that the model forbids now and that <paramref name="isNew"/> has not seen: all of it is refused, and nothing is written.</summary>
    public async Task TryForbiddenAsync(Func<WalkDeed, Moment, bool> isNew)
    {
        foreach (var deed in WalkDeed.All)
        {
            foreach (var at in deed.Moments(Model).Where(at => isNew(deed, at)).ToList())
            {
                if (deed.Reasons(at) is { Count: > 0 } reasons)
                {
                    await RefusedAsync(deed, at, reasons);
                }
            }
        }

        await NothingWrittenAsync();
    }

    public Task<List<string>> FaultsOfTheRecordAsync() => hand.FaultsOfTheRecordAsync();

    public ValueTask DisposeAsync() => hand.DisposeAsync();

    private async Task RefusedAsync(WalkDeed deed, Moment at, IReadOnlyList<string> reasons)
    {
        var told = new WalkStep(deed.Name, at.Subject, at.Person, at.Variant);
        await FirstAsync(deed, at);
        sum ??= await hand.SumAsync();
        var refusal = await Should.ThrowAsync<RefusedException>(() => deed.Act(hand, at), $"the model forbids ({string.Join(", ", reasons)}): {told}");
        reasons.ShouldContain(refusal.Code, $"{told} was refused: {refusal.Message}");
        refused.Add(told);
    }

    // Asked once for all that was refused in a row: the sum of every table costs more than a refusal.
    private async Task NothingWrittenAsync()
    {
        if (refused.Count > 0)
        {
            (await hand.SumAsync()).ShouldBe(sum, $"refused, and yet one of these has written: {string.Join("; ", refused)}");
            refused.Clear();
        }
    }

    private async Task FirstAsync(WalkDeed deed, Moment at)
    {
        if (deed.First is { } first && deed.IsPermitted(at.Person))
        {
            await NothingWrittenAsync();
            await first(hand, at);
            sum = null;
        }
    }

    private async Task CompareAsync()
    {
        states = await hand.StatesAsync();
        states.ShouldBe(Model.States(), ignoreOrder: true, $"after: {Steps[^1]}");
    }

    private Dictionary<object, (string Kind, string State)> Told() => new(
    [
        .. Model.Lots.Select(one => Pair(one, "lot", one.State)), .. Model.Runs.Select(one => Pair(one, "run", one.State)), .. Model.Cases.Select(one => Pair(one, "case", one.State)),
        .. Model.Cases.SelectMany(one => one.Plans).Select(one => Pair(one, "retest plan", one.State)), .. Model.Versions.Select(one => Pair(one, "version", one.State)),
    ], ReferenceEqualityComparer.Instance);

    private void Note(Dictionary<object, (string Kind, string State)> before, string deed)
    {
        foreach (var (thing, (kind, state)) in Told())
        {
            var from = before.TryGetValue(thing, out var then) ? then.State : "new";
            if (from != state)
            {
                Transitions.Add($"{kind} {from} -> {state}: {deed}");
            }
        }
    }

    private static KeyValuePair<object, (string Kind, string State)> Pair<T>(object thing, string kind, T state)
        where T : struct, Enum => new(thing, (kind, state.ToString()));
}

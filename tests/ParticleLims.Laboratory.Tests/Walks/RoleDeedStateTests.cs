using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Every deed by every role in every state of its subject, at the services: what the rules forbid is refused and writes nothing. One of the people holds four roles at once, and still may not do what concerns their own work.</summary>
public sealed class RoleDeedStateTests
{
    private const int StepsOfAWalk = 45;

    private static readonly string[] Families = ["lots.", "samples.", "runs.", "review.", "invalidations.", "investigations.", "dispositions.", "documents.", "methods.", "specifications."];

    /// <summary>Deeds of these families that no walk does, and where their states are proved.</summary>
    private static readonly Dictionary<string, string> NotWalked = new(StringComparer.Ordinal)
    {
        ["runs.key-mass"] = "passes the same gate as a weighing: KeyingTests", ["runs.key-mass-again"] = "passes the same gate as a weighing: KeyingTests", ["runs.conditions"] = "PreparingTests", ["runs.prepare-begin"] = "PreparingTests",
        ["runs.prepare-end"] = "PreparingTests", ["runs.flow-aid"] = "PreparingTests", ["runs.scan"] = "ScanningTests", ["runs.look-at-sieve"] = "passes the same gate as a weighing: PreparingTests",
        ["investigations.note"] = "closed or not, like answering: InvestigationTests", ["investigations.associate-lot"] = "closed or not, like saying that no lot is touched: InvestigationTests", ["investigations.customers-told"] = "InvestigationTests",
        ["investigations.explain-trend"] = "the lighter case: InvestigationTests", ["investigations.propose-hypothesis"] = "needs an open case, like answering: CaseStateTests", ["investigations.approve-hypothesis"] = "CaseStateTests",
        ["investigations.measure-hypothesis"] = "CaseStateTests", ["investigations.judge-hypothesis"] = "CaseStateTests", ["investigations.withdraw-hypothesis"] = "CaseStateTests",
        ["methods.write"] = "a new document has no state yet", ["specifications.write"] = "a new document has no state yet", ["methods.authorise"] = "AuthorisationTests", ["methods.withdraw-authorisation"] = "AuthorisationTests",
        ["methods.allow-unauthorised"] = "AuthorisationTests", ["samples.accept-sampling"] = "only where a sampling lacks something: SamplingPlanTests",
        ["lots.correct"] = "decided or not: CorrectionTests", ["lots.correct-decided"] = "decided or not: CorrectionTests", ["samples.correct"] = "decided or not: CorrectionTests", ["samples.correct-decided"] = "decided or not: CorrectionTests",
    };

    /// <summary>The way of a template into force is the code of methods and specifications, which is walked with them: TemplateKeepingTests.</summary>
    private const string LikeTheOthers = "DocumentApproval<CertificateTemplate>";

    [Fact]
    public void Every_deed_of_these_families_is_walked_or_says_where_it_is_proved_and_by_whom_it_may_be_done_is_said_twice_alike()
    {
        var deeds = Abilities.All.Where(ability => ability.Event is { } code && Families.Any(family => code.StartsWith(family, StringComparison.Ordinal)) && !ability.Name.StartsWith(LikeTheOthers, StringComparison.Ordinal)).ToList();
        var walked = WalkDeed.All.SelectMany(deed => deed.Abilities, (deed, ability) => (Deed: deed, Ability: Abilities.Of(ability))).ToList();
        deeds.Where(ability => !NotWalked.ContainsKey(ability.Event!)).Select(ability => ability.Name).Except(walked.Select(one => one.Ability.Name)).ShouldBeEmpty("deeds that are neither walked nor named above");
        NotWalked.Keys.Except(deeds.Select(ability => ability.Event!)).ShouldBeEmpty("named above, and no deed");
        NotWalked.Keys.Intersect(walked.Select(one => one.Ability.Event!)).ShouldBeEmpty("walked, and named above too");
        walked.Where(one => one.Deed.May != one.Ability.May).Select(one => one.Ability.Name).ShouldBeEmpty("the table of abilities says somebody else");
    }

    [Theory]
    [EachDatabase]
    public async Task No_role_does_in_any_state_what_the_rules_forbid(DatabaseKind kind)
    {
        var (seen, told) = (new HashSet<string>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal));
        for (var seed = 0; seed < SeededWalks.OpeningCount; seed++)
        {
            var random = new Random(seed);
            await using var walk = await SeededWalks.BeginAsync(kind, seed, TryAsync);
            while (walk.Steps.Count < StepsOfAWalk)
            {
                await TryAsync(walk);
                await walk.TakeAsync(walk.Choose(random, shareAllowed: 1));
            }
        }

        Wanted().Except(seen).ShouldBeEmpty("who, in which state, was never asked");

        Task TryAsync(Walk walk) => walk.TryForbiddenAsync((deed, at) =>
        {
            seen.Add($"{deed.Name}, {deed.StateOf(at)}, {ModelLaboratory.Persons[at.Person]}");
            return told.Add($"{deed.Name}, {deed.StateOf(at)}, {at.Person}: {string.Join(' ', deed.Reasons(at))}");
        });
    }

    private static IEnumerable<string> Wanted() =>
        from deed in WalkDeed.All
        from state in StatesOf(deed)
        from who in ModelLaboratory.Persons
        select $"{deed.Name}, {state}, {who}";

    private static IEnumerable<string> StatesOf(WalkDeed deed) => deed.Kind switch
    {
        SubjectKind.Lot => Enum.GetNames<LotState>(),
        SubjectKind.Run when deed.Name.StartsWith("weighs", StringComparison.Ordinal) => Enum.GetNames<RunState>().Except([nameof(RunState.Planned)]), // nothing was weighed yet
        SubjectKind.Run => Enum.GetNames<RunState>(),
        SubjectKind.Case => Enum.GetNames<InvestigationState>(),
        SubjectKind.Version => Enum.GetNames<DocumentState>(),
        _ => ["any"],
    };
}

using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Tests.Record;
using static ParticleLims.Laboratory.Tests.Walks.RunDeeds;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What is done with lots and their samples.</summary>
internal static class LotDeeds
{
    private const Who Arrival = Who.Bench | Who.LaboratoryManager;
    private const int MostLots = 3;

    /// <summary>What is made of a lot that is booked in.</summary>
    public const decimal Kilograms = 1000m;

    // All of a lot that was reworked: it can be reworked once more.
    private const decimal ReworkedKilograms = 10m;

    public static IEnumerable<WalkDeed> All =>
    [
        new("books in a lot beside", Arrival, SubjectKind.Laboratory, "LotReception.BookInAsync/4")
        {
            Weight = 1, Exists = at => at.Model.Lots.Count < MostLots,
            Against = _ => [],
            Changes = at => at.Model.Lots.Add(new ModelLot { Number = Hand.NumberOfNext(at.Model) }),
            Act = (hand, at) => hand.Get<LotReception>().BookInAsync(hand.Of(at), new NewLot(Hand.NumberOfNext(at.Model), hand.Method.ProductId, hand.Small.Customer, new LotParticulars(Kilograms, hand.Yesterday)), null, default),
        },
        new("books in a sample of lot", Arrival, SubjectKind.Lot, "SampleReception.BookInAsync/4")
        {
            Weight = 6, Variants = 2, Exists = at => at.Variant == 0 || OldMethod(at.Model) is not null,
            Against = at => [.. When(at.Lot.IsDecided || (at.Lot.State == LotState.OnHold && at.Lot.MayReplace is null), "lot-closed"), .. When(at.Variant == 1, "method-not-approved")],
            Changes = BookIn,
            Act = (hand, at) => hand.Get<SampleReception>().BookInAsync(hand.Of(at), hand.NewSample(at, at.Variant == 1 ? OldMethod(at.Model)! : at.Model.InForce(0), at.Model.InForce(1)), null, default),
        },
        new("releases lot", Who.QualityManager, SubjectKind.Lot, "LotDecision.ReleaseAsync/5")
        {
            Weight = 15,
            Against = at => [.. Decided(at), .. AwaitsResults(at), .. Independent(at), .. When(IsBlocked(at) || at.Model.Counting(at.Lot).Exists(run => run.Out), "blocked")],
            Changes = at => at.Lot.Decide(LotState.Released),
            Act = async (hand, at) => await hand.Get<LotDecision>().ReleaseAsync(hand.Of(at), hand.Lot(at), await hand.ProofAsync(at), await hand.ShownAsync(at), default),
        },
        new("holds lot", Who.QualityManager, SubjectKind.Lot, "LotDecision.HoldAsync/6")
        {
            Weight = 3,
            Against = Decided,
            Changes = at =>
            {
                at.Lot.Decide(LotState.OnHold);
                at.Lot.HeldBesides = true;
            },
            Act = async (hand, at) => await hand.Get<LotDecision>().HoldAsync(hand.Of(at), hand.Lot(at), "The customer asked to wait", await hand.ProofAsync(at), await hand.ShownAsync(at), default),
        },
        new("rejects lot", Who.QualityManager, SubjectKind.Lot, "LotDecision.RejectAsync/6")
        {
            Weight = 3,
            Against = at => [.. Decided(at), .. Independent(at), .. When(IsInvestigated(at), "blocked")],
            Changes = at => at.Lot.Decide(LotState.Rejected),
            Act = async (hand, at) => await hand.Get<LotDecision>().RejectAsync(hand.Of(at), hand.Lot(at), "Out of specification", await hand.ProofAsync(at), await hand.ShownAsync(at), default),
        },
        new("proposes a concession for lot", Who.LaboratoryManager, SubjectKind.Lot, "LotDecision.ProposeConcessionAsync/4")
        {
            Weight = 4,
            Against = at => [.. Decided(at), .. When(KeepsEveryLimit(at), "nothing-to-concede")],
            Changes = at => at.Lot.ConcessionBy = at.Person,
            Act = (hand, at) => hand.Get<LotDecision>().ProposeConcessionAsync(hand.Of(at), hand.Lot(at), "Another use was found for it", default),
        },
        new("concedes lot", Who.QualityManager, SubjectKind.Lot, "LotDecision.ConcedeAsync/6")
        {
            Weight = 15,
            Against = at => [.. Decided(at), .. AwaitsResults(at), .. Independent(at), .. When(at.IsOwn(at.Lot.ConcessionBy == at.Person), "own-work"), .. When(IsBlocked(at) || at.Lot.ConcessionBy is null || KeepsEveryLimit(at), "blocked")],
            Changes = at => at.Lot.Decide(LotState.ReleasedByConcession),
            Act = async (hand, at) => await hand.Get<LotDecision>().ConcedeAsync(hand.Of(at), hand.Lot(at), "Agreed with the customer", await hand.ProofAsync(at), await hand.ShownAsync(at), default),
        },
        new("asks to open again lot", Who.LaboratoryManager, SubjectKind.Lot, "LotReopening.ProposeAsync/4")
        {
            Weight = 8,
            Against = at => When(!at.Lot.IsDecided, "lot-undecided"),
            Changes = at => at.Lot.ReopeningBy = at.Person,
            Act = (hand, at) => hand.Get<LotReopening>().ProposeAsync(hand.Of(at), hand.Lot(at), "The customer found it too coarse", default),
        },
        new("opens again lot", Who.QualityManager, SubjectKind.Lot, "LotReopening.ReopenAsync/6")
        {
            Weight = 15,
            Against = at => [.. When(at.Lot.ReopeningBy is null, "reopening-not-proposed"), .. When(at.IsOwn(at.Lot.ReopeningBy == at.Person), "own-work")],
            Changes = at =>
            {
                at.Lot.Decide(LotState.OnHold);
                at.Lot.HeldBesides = true;
            },
            Act = async (hand, at) => await hand.Get<LotReopening>().ReopenAsync(hand.Of(at), hand.Lot(at), "Looked at anew", await hand.ProofAsync(at), await hand.ShownAsync(at), default),
        },
        new("has reworked lot", Who.QualityManager, SubjectKind.Lot, "LotRework.ReworkAsync/5")
        {
            Weight = 5, Exists = at => at.Model.Lots.Count < MostLots + 1,
            Against = at => [.. When(at.Lot.State != LotState.Rejected, "lot-not-rejected"), .. Independent(at), .. When(at.Lot.KilogramsLeft < ReworkedKilograms, "rework-quantity")],
            Changes = at =>
            {
                at.Lot.KilogramsLeft -= ReworkedKilograms;
                at.Model.Lots.Add(new ModelLot { Number = Hand.NumberOfNext(at.Model), KilogramsLeft = ReworkedKilograms });
            },
            Act = async (hand, at) => await hand.Get<LotRework>().ReworkAsync(hand.Of(at), hand.Lot(at), new NewRework(Hand.NumberOfNext(at.Model), ReworkedKilograms, hand.Yesterday, "Ground again by procedure P-12"), await hand.ProofAsync(at), default),
        },
    ];

    private static ModelVersion? OldMethod(ModelLaboratory model) => model.Versions.Find(version => version is { Document: 0, State: not DocumentState.InForce });

    private static void BookIn(Moment at)
    {
        var (lot, permitted) = (at.Lot, at.Lot.State == LotState.OnHold);
        var sample = new ModelSample
        {
            Number = at.Model.Samples.Count + 1, Lot = lot, MethodVersion = at.Model.InForce(0), SpecificationVersion = at.Model.InForce(1), Replaces = permitted ? lot.MayReplace : null,
        };
        at.Model.Samples.Add(sample);
        at.Model.Plan(sample);
        (lot.MayReplace, lot.State) = (permitted ? null : lot.MayReplace, lot.State == LotState.AwaitingDisposition ? LotState.AwaitingResults : lot.State);
    }

    private static IEnumerable<string> Decided(Moment at) => When(at.Lot.IsDecided, "lot-decided");

    private static IEnumerable<string> AwaitsResults(Moment at) => When(at.Lot.State == LotState.AwaitingResults, "lot-awaits-results");

    private static IEnumerable<string> Independent(Moment at) => When(at.IsOwn(at.Model.TookPart(at.Lot, at.Person)), "own-work");

    private static bool IsInvestigated(Moment at) => at.Model.CasesOf(at.Lot).Any(one => one.State != InvestigationState.Closed);

    // No result without a sample, a second person's acceptance, an end of every investigation and of every proposed invalidation.
    private static bool KeepsEveryLimit(Moment at) => at.Model.ResultsAreIn(at.Lot) && !at.Model.Counting(at.Lot).Exists(run => run.Out);

    private static bool IsBlocked(Moment at) => !at.Model.ResultsAreIn(at.Lot) || IsInvestigated(at) || at.Model.RunsOf(at.Lot).Any(run => run.ProposedBy is not null);
}

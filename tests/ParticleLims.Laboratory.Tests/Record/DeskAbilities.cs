using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done from the review of a run to the certificate.</summary>
internal static class DeskAbilities
{
    private static readonly Guid[] OneOfNothing = [Guid.CreateVersion7()];
    private const Who Investigators = Who.Reviewer | Who.QualityManager | Who.LaboratoryManager;
    private const string Why = "Looked at twice";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly SecretProof NoProof = new(Nothing);
    private static readonly RetestDraft Retests = new(2, "The sealed second half", "Each against the limits", null);

    public static IReadOnlyList<Ability> All { get; } = [.. Reviews, .. Investigating, .. Decisions, .. Certifying];

    private static IEnumerable<Ability> Reviews =>
    [
        Does("review.accept", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunReview>().AcceptAsync(who, Nothing, NoProof, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            await stage.Get<RunChanges>().OpenAsync(stage.People.Reviewer.Actor, lot.RunId, default);
            return () => stage.Desk.SignAsync(lot.RunId);
        }),
        Does("review.return", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunReview>().ReturnAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            return () => stage.Desk.ReturnAsync(lot.RunId);
        }),
        Does("review.invalidate", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunReview>().InvalidateAsync(who, Nothing, Why, NoProof, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            return () => stage.Desk.ProposeInvalidationAsync(lot.RunId);
        }),
        Does("invalidations.confirm", Who.QualityManager, "not-found", (stage, who) => stage.Get<RunReview>().ConfirmInvalidationAsync(who, Nothing, NoProof, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            await stage.Desk.ProposeInvalidationAsync(lot.RunId);
            return () => stage.Desk.ConfirmInvalidationAsync(lot.RunId);
        }),
        Does("invalidations.decline", Who.QualityManager, "not-found", (stage, who) => stage.Get<RunReview>().DeclineInvalidationAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            await stage.Desk.ProposeInvalidationAsync(lot.RunId);
            var version = (await stage.Small.Bench().ViewAsync(lot.RunId)).Run.Version;
            return () => stage.Get<RunReview>().DeclineInvalidationAsync(stage.People.QualityManager.Actor, lot.RunId, "The lid was closed: the film shows it", version, default);
        }),
        Does("changes.open", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunChanges>().OpenAsync(who, Nothing, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            return () => stage.Get<RunChanges>().OpenAsync(stage.People.Reviewer.Actor, lot.RunId, default);
        }),
    ];

    private static IEnumerable<Ability> Investigating =>
    [
        Does("investigations.note", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().NoteAsync(who, Nothing, Why, null, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<InvestigationWork>().NoteAsync(stage.People.Reviewer.Actor, open.Id, "The sieves are whole", "note", default);
        }),
        Does("investigations.answer", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().AnswerAsync(who, Nothing, PhasePoint.Balance, PointFinding.InOrder, Why, null, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<InvestigationWork>().AnswerAsync(stage.People.Reviewer.Actor, open.Id, PhasePoint.Balance, PointFinding.InOrder, Why, null, default);
        }),
        Does("investigations.associate-lot", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().AssociateAsync(who, Nothing, "4711", Why, null, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            var other = (await stage.Desk.EvidenceAsync(await stage.Small.BookInLotAsync(stage.Small.Calcite))).Lot.Number;
            return () => stage.Get<InvestigationWork>().AssociateAsync(stage.People.Reviewer.Actor, open.Id, other, Why, null, default);
        }),
        Does("investigations.no-other-lots", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().NoOtherLotsAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<InvestigationWork>().NoOtherLotsAsync(stage.People.Reviewer.Actor, open.Id, Why, open.Version, default);
        }),
        Does("investigations.customers-told", Who.QualityManager, "not-found", (stage, who) => stage.Get<InvestigationWork>().CustomersToldAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<InvestigationWork>().CustomersToldAsync(stage.People.QualityManager.Actor, open.Id, Why, open.Version, default);
        }),
        Does("investigations.explain-trend", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().ExplainAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var open = await OffTrendAsync(stage);
            return () => stage.Get<InvestigationWork>().ExplainAsync(stage.People.Reviewer.Actor, open.Id, Why, open.Version, default);
        }),
        Does("investigations.propose-hypothesis", Investigators, "not-found", (stage, who) => stage.Get<HypothesisWork>().ProposeAsync(who, Nothing, Why, Why, Why, null, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => ProposeAsync(stage, open.Id);
        }),
        Does("investigations.approve-hypothesis", Who.QualityManager, "not-found", (stage, who) => stage.Get<HypothesisWork>().ApproveAsync(who, Nothing, NoProof, 1, default), async stage =>
        {
            var supposed = await ProposeAsync(stage, (await InvestigatedAsync(stage)).Id);
            return () => ApproveAsync(stage, supposed);
        }),
        Does("investigations.measure-hypothesis", Investigators, "not-found", (stage, who) => stage.Get<HypothesisWork>().MeasureAsync(who, Nothing, Why, 1m, "%", null, default), async stage =>
        {
            var supposed = await ApproveAsync(stage, await ProposeAsync(stage, (await InvestigatedAsync(stage)).Id));
            return () => stage.Get<HypothesisWork>().MeasureAsync(stage.People.Reviewer.Actor, supposed, Why, 96.1m, "%", null, default);
        }),
        Does("investigations.judge-hypothesis", Investigators, "not-found", (stage, who) => stage.Get<HypothesisWork>().JudgeAsync(who, Nothing, HypothesisOutcome.RuledOut, Why, 1, default), async stage =>
        {
            var supposed = await ApproveAsync(stage, await ProposeAsync(stage, (await InvestigatedAsync(stage)).Id));
            await stage.Get<HypothesisWork>().MeasureAsync(stage.People.Reviewer.Actor, supposed, Why, 96.1m, "%", null, default);
            return () => stage.Get<HypothesisWork>().JudgeAsync(stage.People.Reviewer.Actor, supposed, HypothesisOutcome.RuledOut, Why, 3, default);
        }),
        Does("investigations.withdraw-hypothesis", Investigators, "not-found", (stage, who) => stage.Get<HypothesisWork>().WithdrawAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var supposed = await ProposeAsync(stage, (await InvestigatedAsync(stage)).Id);
            return () => stage.Get<HypothesisWork>().WithdrawAsync(stage.People.Reviewer.Actor, supposed, Why, 1, default);
        }),
        Does("investigations.propose-retests", Investigators, "not-found", (stage, who) => stage.Get<RetestWork>().ProposeAsync(who, Nothing, Retests, null, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<RetestWork>().ProposeAsync(stage.People.Reviewer.Actor, open.Id, Retests, null, default);
        }),
        Does("investigations.approve-retests", Who.QualityManager, "not-found", (stage, who) => stage.Get<RetestWork>().ApproveAsync(who, Nothing, NoProof, 1, default), async stage =>
        {
            var plan = await stage.Get<RetestWork>().ProposeAsync(stage.People.Reviewer.Actor, (await InvestigatedAsync(stage)).Id, Retests, null, default);
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<RetestWork>().ApproveAsync(stage.People.QualityManager.Actor, plan, proof, 1, default);
        }),
        Does("investigations.withdraw-retests", Investigators, "not-found", (stage, who) => stage.Get<RetestWork>().WithdrawAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var plan = await stage.Get<RetestWork>().ProposeAsync(stage.People.Reviewer.Actor, (await InvestigatedAsync(stage)).Id, Retests, null, default);
            return () => stage.Get<RetestWork>().WithdrawAsync(stage.People.Reviewer.Actor, plan, Why, 1, default);
        }),
        Does("investigations.permit-sample", Who.QualityManager, "not-found", (stage, who) => stage.Get<RetestWork>().PermitSampleAsync(who, Nothing, Why, NoProof, 1, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<RetestWork>().PermitSampleAsync(stage.People.QualityManager.Actor, open.Id, Why, proof, open.Version, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<RetestWork>().ShownAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<RetestWork>().RunsAsync(who, Nothing, default)),
        Reads(Investigators, (stage, who) => stage.Get<CaseFiguresReading>().OfAsync(who, DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddDays(1), default)),
        Does("investigations.full-phase", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().GoFullAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var lot = (await InvestigatedAsync(stage)).LotId;
            await stage.Desk.AnswerAsync(lot);
            var open = await stage.Desk.OpenInvestigationAsync(lot);
            return () => stage.Get<InvestigationWork>().GoFullAsync(stage.People.LaboratoryManager.Actor, open.Id, "Nothing found at the bench", open.Version, default);
        }),
        Does("investigations.conclude", Who.QualityManager, "not-found", (stage, who) => stage.Get<InvestigationWork>().ConcludeAsync(who, Nothing, InvestigationConclusion.Confirmed, null, Why, NoProof, 1, default), async stage =>
        {
            var lot = (await InvestigatedAsync(stage)).LotId;
            await stage.Desk.AnswerAsync(lot, causeFound: true);
            var open = await stage.Desk.OpenInvestigationAsync(lot);
            var proof = await stage.Small.ProofAsync(stage.People.QualityManager);
            return () => stage.Get<InvestigationWork>().ConcludeAsync(stage.People.QualityManager.Actor, open.Id, InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.Preparation, Why, proof, open.Version, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<InvestigationWork>().AllAsync(who, null, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<InvestigationWork>().FindAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Decisions =>
    [
        Does("dispositions.release", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotDecision>().ReleaseAsync(who, Nothing, NoProof, "hash", default), async stage =>
        {
            var lot = await (await SubmittedAsync(stage, Powder.Calcite)).AcceptAsync();
            return () => stage.Desk.ReleaseAsync(lot.Id);
        }),
        Does("dispositions.hold", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotDecision>().HoldAsync(who, Nothing, Why, NoProof, "hash", default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Calcite);
            return () => stage.Desk.HoldAsync(lot);
        }),
        Does("dispositions.reject", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotDecision>().RejectAsync(who, Nothing, Why, NoProof, "hash", default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Calcite);
            return () => stage.Desk.RejectAsync(lot);
        }),
        Does("dispositions.concede", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotDecision>().ConcedeAsync(who, Nothing, Why, NoProof, "hash", default), async stage =>
        {
            var lot = await (await SubmittedAsync(stage, Powder.CoarseCalcite)).AcceptAsync();
            await stage.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
            await stage.Desk.ProposeAsync(lot.Id);
            return () => stage.Desk.ConcedeAsync(lot.Id);
        }),
        Does("dispositions.propose-concession", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<LotDecision>().ProposeConcessionAsync(who, Nothing, Why, default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Calcite);
            return () => stage.Desk.ProposeAsync(lot);
        }),
        Does("dispositions.propose-reopening", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<LotReopening>().ProposeAsync(who, Nothing, Why, default), async stage =>
        {
            var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            return () => stage.Desk.AskReopeningAsync(lot.Id);
        }),
        Does("dispositions.reopen", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotReopening>().ReopenAsync(who, Nothing, Why, NoProof, "hash", default), async stage =>
        {
            var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            await stage.Desk.AskReopeningAsync(lot.Id);
            return () => stage.Desk.ReopenAsync(lot.Id);
        }),
        Does("dispositions.rework", Who.QualityManager, "not-found", (stage, who) => stage.Get<LotRework>().ReworkAsync(who, Nothing, new NewRework("R-1", 1m, default, Why), NoProof, default), async stage =>
        {
            var lot = await stage.Small.BookInLotAsync(stage.Small.Calcite);
            await stage.Desk.RejectAsync(lot);
            return () => stage.Desk.ReworkAsync(lot, 100m);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<LotRework>().ChildrenAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<LotRework>().ParentAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<LotDecision>().ReadAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Certifying =>
    [
        Does("certificates.issue", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateIssue>().IssueAsync(who, Nothing, Nothing, null, default), async stage =>
        {
            var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            return () => stage.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        }),
        Does("certificates.issue", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateIssue>().IssueSeveralAsync(who, OneOfNothing, null, default), async stage =>
        {
            var first = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            var second = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            return () => stage.Get<CertificateIssue>().IssueSeveralAsync(stage.People.QualityManager.Actor, [first.Sample.Id, second.Sample.Id], "several", default);
        }),
        Reads(Who.QualityManager, (stage, who) => stage.Get<SamplesToCertify>().AllAsync(who, 10, default)),
        Reads(Who.QualityManager, (stage, who) => stage.Get<SamplesToCertify>().OfLotAsync(who, Nothing, default)),
        Reads(Who.Staff | Who.Customer, (stage, who) => stage.Get<CertificateShelf>().LotsAsync(who, Nothing, default)),
        Does("certificates.withdraw", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateIssue>().WithdrawAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            var certificate = await stage.Desk.IssueAsync(lot.Id, lot.Sample.Id);
            return () => stage.Get<CertificateIssue>().WithdrawAsync(stage.People.QualityManager.Actor, certificate, "The customer's name was wrong", 1, default);
        }),
        Does("certificates.revise", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateIssue>().ReviseAsync(who, Nothing, Why, Why, 1, null, default), async stage =>
        {
            var certificate = await CertifiedAsync(stage);
            return () => stage.Get<CertificateIssue>().ReviseAsync(stage.People.QualityManager.Actor, certificate, "The customer's address", "It had moved", 1, "revise", default);
        }),
        Does("certificates.suspend", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateLife>().SuspendAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var certificate = await CertifiedAsync(stage);
            return () => stage.Get<CertificateLife>().SuspendAsync(stage.People.QualityManager.Actor, certificate, "The customer found lumps", 1, default);
        }),
        Does("certificates.reinstate", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateLife>().ReinstateAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var certificate = await CertifiedAsync(stage);
            await stage.Get<CertificateLife>().SuspendAsync(stage.People.QualityManager.Actor, certificate, "The customer found lumps", 1, default);
            return () => stage.Get<CertificateLife>().ReinstateAsync(stage.People.QualityManager.Actor, certificate, "Lumps from damp storage there", 2, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<CertificateIssue>().PreviewAsync(who, OneOfNothing, default)),
        Reads(Who.Staff | Who.Customer, (stage, who) => stage.Get<CertificateShelf>().AllAsync(who, null, null, 10, default)),
        Reads(Who.Staff | Who.Customer, (stage, who) => stage.Get<CertificateShelf>().FindAsync(who, Nothing, default)),
        Reads(Who.Staff | Who.Customer, (stage, who) => stage.Get<CertificateShelf>().DownloadAsync(who, Nothing, default)),
        Reads(Who.Staff | Who.Customer, (stage, who) => stage.Get<CertificateShelf>().TwinAsync(who, Nothing, default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<CertificateCheck>().ByTokenAsync("nothing", default)),
        Reads(Who.Anybody, (stage, _) => stage.Get<CertificateCheck>().ByFileHashAsync("00", default)),
    ];

    private static async Task<Guid> CertifiedAsync(Stage stage)
    {
        var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        return await stage.Desk.IssueAsync(lot.Id, lot.Sample.Id);
    }

    private static Task<Guid> ProposeAsync(Stage stage, Guid investigation) => stage.Get<HypothesisWork>().ProposeAsync(stage.People.Reviewer.Actor, investigation, "The sieve is blinded", "The second half on another sieve", "Supported at 97 % or more", null, default);

    private static async Task<Guid> ApproveAsync(Stage stage, Guid hypothesis)
    {
        await stage.Get<HypothesisWork>().ApproveAsync(stage.People.QualityManager.Actor, hypothesis, await stage.Small.ProofAsync(stage.People.QualityManager), 1, default);
        return hypothesis;
    }

    private static async Task<Investigation> OffTrendAsync(Stage stage)
    {
        await stage.Small.MakeHistoryAsync();
        var lot = await (await stage.Small.BookInAsync(stage.Small.Spice)).SubmitAsync(Powder.SpiceCoarser(3.4m));
        return (await stage.Desk.InvestigationsAsync(lot.Id)).Single();
    }

    private static async Task<TestLot> SubmittedAsync(Stage stage, Powder powder) => await (await stage.Small.BookInAsync(stage.Small.Calcite)).SubmitAsync(powder);

    private static async Task<Investigation> InvestigatedAsync(Stage stage) => (await stage.Desk.InvestigationsAsync((await SubmittedAsync(stage, Powder.CoarseCalcite)).Id)).Single();
}

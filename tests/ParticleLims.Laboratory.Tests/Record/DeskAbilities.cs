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
    private const Who Investigators = Who.Reviewer | Who.QualityManager | Who.LaboratoryManager;
    private const string Why = "Looked at twice";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly SecretProof NoProof = new(Nothing);

    public static IReadOnlyList<Ability> All { get; } = [.. Reviews, .. Investigating, .. Decisions, .. Certifying];

    private static IEnumerable<Ability> Reviews =>
    [
        Does("review.accept", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunReview>().AcceptAsync(who, Nothing, NoProof, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            return () => stage.Desk.AcceptAsync(lot.RunId);
        }),
        Does("review.return", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunReview>().ReturnAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            return () => stage.Desk.ReturnAsync(lot.RunId);
        }),
        Does("review.invalidate", Who.Reviewer, "not-found", (stage, who) => stage.Get<RunReview>().InvalidateAsync(who, Nothing, Why, NoProof, 1, default), async stage =>
        {
            var lot = await SubmittedAsync(stage, Powder.Calcite);
            return () => stage.Desk.InvalidateAsync(lot.RunId);
        }),
    ];

    private static IEnumerable<Ability> Investigating =>
    [
        Does("investigations.note", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().NoteAsync(who, Nothing, Why, null, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<InvestigationWork>().NoteAsync(stage.People.Reviewer.Actor, open.Id, "The sieves are whole", "note", default);
        }),
        Does("investigations.full-phase", Investigators, "not-found", (stage, who) => stage.Get<InvestigationWork>().GoFullAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Get<InvestigationWork>().GoFullAsync(stage.People.LaboratoryManager.Actor, open.Id, "Nothing found at the bench", open.Version, default);
        }),
        Does("investigations.conclude", Who.QualityManager, "not-found", (stage, who) => stage.Get<InvestigationWork>().ConcludeAsync(who, Nothing, InvestigationConclusion.Confirmed, Why, NoProof, 1, default), async stage =>
        {
            var open = await InvestigatedAsync(stage);
            return () => stage.Desk.ConcludeAsync(open.LotId, InvestigationConclusion.LaboratoryCause);
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
        Reads(Who.Staff, (stage, who) => stage.Get<LotDecision>().ReadAsync(who, Nothing, default)),
    ];

    private static IEnumerable<Ability> Certifying =>
    [
        Does("certificates.issue", Who.QualityManager, "not-found", (stage, who) => stage.Get<CertificateIssue>().IssueAsync(who, Nothing, Nothing, null, default), async stage =>
        {
            var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
            return () => stage.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        }),
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
        Reads(Who.Staff, (stage, who) => stage.Get<CertificateIssue>().PreviewAsync(who, Nothing, Nothing, default)),
        Reads(Who.Staff | Who.Customer, (stage, who) => stage.Get<CertificateShelf>().AllAsync(who, null, null, 10, default)),
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

    private static async Task<TestLot> SubmittedAsync(Stage stage, Powder powder) => await (await stage.Small.BookInAsync(stage.Small.Calcite)).SubmitAsync(powder);

    private static async Task<Investigation> InvestigatedAsync(Stage stage) => (await stage.Desk.InvestigationsAsync((await SubmittedAsync(stage, Powder.CoarseCalcite)).Id)).Single();
}

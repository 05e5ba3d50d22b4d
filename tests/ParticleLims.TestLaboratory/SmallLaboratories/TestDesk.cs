using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>The desks: the reviewer looks at runs, the quality manager decides and issues, each reading first what the page would show.</summary>
public sealed class TestDesk(SmallLaboratory laboratory)
{
    private static readonly CancellationToken None = CancellationToken.None;

    private TestPerson Reviewer => laboratory.People.Reviewer;

    private TestPerson Manager => laboratory.People.QualityManager;

    /// <summary>The reviewer accepts a run.</summary>
    public async Task AcceptAsync(Guid runId, TestPerson? by = null)
    {
        await laboratory.Get<RunChanges>().OpenAsync((by ?? Reviewer).Actor, runId, None);
        await SignAsync(runId, by);
    }

    /// <summary>The reviewer's signature alone.</summary>
    public async Task SignAsync(Guid runId, TestPerson? by = null)
    {
        var person = by ?? Reviewer;
        await laboratory.Get<RunReview>().AcceptAsync(person.Actor, runId, await laboratory.ProofAsync(person), await VersionOfRunAsync(runId), None);
    }

    /// <summary>The reviewer returns a run.</summary>
    public async Task ReturnAsync(Guid runId, string reason = "Look at the residue on 45 µm again") =>
        await laboratory.Get<RunReview>().ReturnAsync(Reviewer.Actor, runId, reason, await VersionOfRunAsync(runId), None);

    /// <summary>The reviewer signs that a run is to be invalidated; answers whether it is.</summary>
    public async Task<bool> ProposeInvalidationAsync(Guid runId, string cause = "The sieve's lid was not closed") =>
        await laboratory.Get<RunReview>().InvalidateAsync(Reviewer.Actor, runId, cause, await laboratory.ProofAsync(Reviewer), await VersionOfRunAsync(runId), None);

    /// <summary>The quality manager signs under it.</summary>
    public async Task ConfirmInvalidationAsync(Guid runId, TestPerson? by = null)
    {
        var person = by ?? Manager;
        await laboratory.Get<RunReview>().ConfirmInvalidationAsync(person.Actor, runId, await laboratory.ProofAsync(person), await VersionOfRunAsync(runId), None);
    }

    /// <summary>Both signatures that invalidate a run, where both are asked for.</summary>
    public async Task InvalidateAsync(Guid runId, string cause = "The sieve's lid was not closed")
    {
        if (!await ProposeInvalidationAsync(runId, cause))
        {
            await ConfirmInvalidationAsync(runId);
        }
    }

    /// <summary>Gives a run up.</summary>
    public async Task AbandonAsync(Guid runId, string reason = "The test portion was spilled") =>
        await laboratory.Get<RunStart>().AbandonAsync(laboratory.People.Technician.Actor, runId, reason, await VersionOfRunAsync(runId), None);

    /// <summary>What the decision page shows.</summary>
    public async Task<LotEvidence> EvidenceAsync(Guid lotId) => (await laboratory.Get<LotDecision>().ReadAsync(Manager.Actor, lotId, None))!;

    /// <summary>Releases a lot.</summary>
    public async Task ReleaseAsync(Guid lotId, TestPerson? by = null)
    {
        var person = by ?? Manager;
        var shown = await EvidenceAsync(lotId);
        await laboratory.Get<LotDecision>().ReleaseAsync(person.Actor, lotId, await laboratory.ProofAsync(person), shown.ContentHash, None);
    }

    /// <summary>Puts a lot on hold.</summary>
    public async Task HoldAsync(Guid lotId, string reason = "Customer asked to wait")
    {
        var shown = await EvidenceAsync(lotId);
        await laboratory.Get<LotDecision>().HoldAsync(Manager.Actor, lotId, reason, await laboratory.ProofAsync(Manager), shown.ContentHash, None);
    }

    /// <summary>Rejects a lot.</summary>
    public async Task RejectAsync(Guid lotId, string reason = "Out of specification, confirmed")
    {
        var shown = await EvidenceAsync(lotId);
        await laboratory.Get<LotDecision>().RejectAsync(Manager.Actor, lotId, reason, await laboratory.ProofAsync(Manager), shown.ContentHash, None);
    }

    /// <summary>The laboratory manager proposes a concession.</summary>
    public Task ProposeAsync(Guid lotId, TestPerson? by = null) =>
        laboratory.Get<LotDecision>().ProposeConcessionAsync((by ?? laboratory.People.LaboratoryManager).Actor, lotId, "The customer takes it for another use", None);

    /// <summary>The quality manager grants it.</summary>
    public async Task ConcedeAsync(Guid lotId, TestPerson? by = null)
    {
        var person = by ?? Manager;
        var shown = await EvidenceAsync(lotId);
        await laboratory.Get<LotDecision>().ConcedeAsync(person.Actor, lotId, "Agreed with the customer in writing", await laboratory.ProofAsync(person), shown.ContentHash, None);
    }

    /// <summary>The laboratory manager asks for a decided lot to be opened again.</summary>
    public Task AskReopeningAsync(Guid lotId, TestPerson? by = null) =>
        laboratory.Get<LotReopening>().ProposeAsync((by ?? laboratory.People.LaboratoryManager).Actor, lotId, "The customer sent a sample that is too coarse", None);

    /// <summary>The quality manager opens it again.</summary>
    public async Task ReopenAsync(Guid lotId, TestPerson? by = null)
    {
        var person = by ?? Manager;
        await laboratory.Get<LotReopening>().ReopenAsync(person.Actor, lotId, "Looked at anew", await laboratory.ProofAsync(person), (await EvidenceAsync(lotId)).ContentHash, None);
    }

    /// <summary>The quality manager has a rejected lot reworked; answers the new one.</summary>
    public async Task<Guid> ReworkAsync(Guid lotId, decimal kilograms, string? number = null)
    {
        var lot = (await EvidenceAsync(lotId)).Lot;
        return await laboratory.Get<LotRework>().ReworkAsync(Manager.Actor, lotId, new NewRework(number ?? lot.Number + "-R1", kilograms, lot.MadeOn, "Ground again by procedure P-12"), await laboratory.ProofAsync(Manager), None);
    }

    /// <summary>The investigations of a lot, newest first.</summary>
    public Task<List<Investigation>> InvestigationsAsync(Guid lotId) => laboratory.Get<InvestigationWork>().AllAsync(Manager.Actor, lotId, None);

    /// <summary>The open investigation of the lot, with everything in it.</summary>
    public async Task<Investigation> OpenInvestigationAsync(Guid lotId) =>
        (await laboratory.Get<InvestigationWork>().FindAsync(Manager.Actor, (await InvestigationsAsync(lotId)).First(one => one.State != InvestigationState.Closed).Id, None))!;

    /// <summary>Answers every point of the laboratory phase; the division shows a cause where one is to be found.</summary>
    public async Task AnswerAsync(Guid lotId, bool causeFound = false)
    {
        var open = await OpenInvestigationAsync(lotId);
        foreach (var point in open.Unanswered.ToList())
        {
            var finding = causeFound && point == PhasePoint.Division ? PointFinding.Found : PointFinding.InOrder;
            await laboratory.Get<InvestigationWork>().AnswerAsync(Reviewer.Actor, open.Id, point, finding, "Looked at together", null, None);
        }
    }

    /// <summary>Concludes the lot's open investigation; through the full phase where the conclusion needs it.</summary>
    public async Task ConcludeAsync(Guid lotId, InvestigationConclusion conclusion)
    {
        var work = laboratory.Get<InvestigationWork>();
        var found = conclusion == InvestigationConclusion.LaboratoryCause;
        await AnswerAsync(lotId, found);
        var open = await OpenInvestigationAsync(lotId);
        if (!found)
        {
            await work.GoFullAsync(Reviewer.Actor, open.Id, "No cause found in the laboratory", open.Version, None);
            await work.NoOtherLotsAsync(Reviewer.Actor, open.Id, "The lots before and after it conform", open.Version + 1, None);
        }

        open = await OpenInvestigationAsync(lotId);
        await work.ConcludeAsync(Manager.Actor, open.Id, conclusion, found ? LaboratoryCauseKind.Preparation : null, "As the notes say", await laboratory.ProofAsync(Manager), open.Version, None);
    }

    /// <summary>Issues the certificate of a sample.</summary>
    public Task<Guid> IssueAsync(Guid lotId, Guid sampleId) => laboratory.Get<CertificateIssue>().IssueAsync(Manager.Actor, lotId, sampleId, null, None);

    private async Task<long> VersionOfRunAsync(Guid runId) => (await laboratory.Bench().ViewAsync(runId)).Run.Version;
}

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
        var person = by ?? Reviewer;
        await laboratory.Get<RunReview>().AcceptAsync(person.Actor, runId, await laboratory.ProofAsync(person), await VersionOfRunAsync(runId), None);
    }

    /// <summary>The reviewer returns a run.</summary>
    public async Task ReturnAsync(Guid runId, string reason = "Look at the residue on 45 µm again") =>
        await laboratory.Get<RunReview>().ReturnAsync(Reviewer.Actor, runId, reason, await VersionOfRunAsync(runId), None);

    /// <summary>The reviewer invalidates a run.</summary>
    public async Task InvalidateAsync(Guid runId, string cause = "The sieve's lid was not closed") =>
        await laboratory.Get<RunReview>().InvalidateAsync(Reviewer.Actor, runId, cause, await laboratory.ProofAsync(Reviewer), await VersionOfRunAsync(runId), None);

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

    /// <summary>The investigations of a lot, newest first.</summary>
    public Task<List<Investigation>> InvestigationsAsync(Guid lotId) => laboratory.Get<InvestigationWork>().AllAsync(Manager.Actor, lotId, None);

    /// <summary>Concludes the lot's open investigation; through the full phase where the conclusion needs it.</summary>
    public async Task ConcludeAsync(Guid lotId, InvestigationConclusion conclusion)
    {
        var work = laboratory.Get<InvestigationWork>();
        var open = (await InvestigationsAsync(lotId)).First(one => one.State != InvestigationState.Closed);
        var version = open.Version;
        if (conclusion != InvestigationConclusion.LaboratoryCause)
        {
            await work.GoFullAsync(Reviewer.Actor, open.Id, "No cause found in the laboratory", version++, None);
        }

        await work.ConcludeAsync(Manager.Actor, open.Id, conclusion, "As the notes say", await laboratory.ProofAsync(Manager), version, None);
    }

    /// <summary>Issues the certificate of a sample.</summary>
    public Task<Guid> IssueAsync(Guid lotId, Guid sampleId) => laboratory.Get<CertificateIssue>().IssueAsync(Manager.Actor, lotId, sampleId, null, None);

    private async Task<long> VersionOfRunAsync(Guid runId) => (await laboratory.Bench().ViewAsync(runId)).Run.Version;
}

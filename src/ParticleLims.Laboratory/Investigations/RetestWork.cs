using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>What a retest showed.</summary>
/// <param name="RunId">The run.</param>
/// <param name="Limits">One verdict for each limit, on this run alone.</param>
public sealed record RetestResult(Guid RunId, IReadOnlyList<JudgedLimit> Limits);

/// <summary>Further determinations of an investigated sample, by a plan that is approved before the first; and a new sample where the first one cannot stand for its lot.</summary>
public sealed class RetestWork(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind ProposeDeed = new("investigations.propose-retests", "Retest plan proposed", Permission.Investigate);
    private static readonly DeedKind ApproveDeed = new("investigations.approve-retests", "Retest plan approved", Permission.ConcludeInvestigations);
    private static readonly DeedKind WithdrawDeed = new("investigations.withdraw-retests", "Retest plan withdrawn", Permission.Investigate, ReasonRequired: true);
    private static readonly DeedKind SampleDeed = new("investigations.permit-sample", "New sample permitted", Permission.ConcludeInvestigations, ReasonRequired: true);

    /// <summary>Proposes so many determinations of the same sample. One plan is all that an investigation has.</summary>
    public Task<Guid> ProposeAsync(Actor actor, Guid investigationId, RetestDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ProposeDeed, actor, key) { Asked = new { investigationId, draft } }, async (scope, token) =>
        {
            var investigation = await InvestigationWork.FindAsync(scope, investigationId, null, token);
            investigation.RequireOutOfSpecification();
            if (investigation.RetestPlans.Exists(plan => plan.State != RetestPlanState.Withdrawn))
            {
                throw new RefusedException("retest-plan-there", "There is a retest plan already. Its number is not changed by what the retests show, and no second plan follows it.");
            }

            Check(draft);
            var plan = new RetestPlan
            {
                Id = scope.NewId(), InvestigationId = investigation.Id, Count = draft.Count, Portion = draft.Portion.Trim(), Evaluation = draft.Evaluation.Trim(), SamePersonReason = draft.SamePersonReason?.Trim(),
                ProposedById = scope.PersonId, ProposedByName = scope.By.Name, ProposedAt = scope.Now,
            };
            scope.Data.Add(plan);
            InvestigationWork.Touch(scope, investigation);
            return plan.Id;
        }, cancellation);

    /// <summary>Approves the plan by signature, never whoever proposed it: its runs are planned, all of them at once.</summary>
    public Task<bool> ApproveAsync(Actor actor, Guid planId, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ApproveDeed, actor), async (scope, token) =>
        {
            var (investigation, plan) = await FindAsync(scope, planId, version, token);
            await InvestigationDuties.RequireOtherThanProposerAsync(scope, plan.ProposedById, token);
            plan.Approve(scope);
            var shown = await scope.FindAsync<Run>(investigation.RunId, "run", token);
            for (var number = 1; number <= plan.Count; number++)
            {
                scope.Data.Add(shown.Retest(scope, await scope.NextNumberAsync("R", token), plan.Id, number, otherPerson: plan.SamePersonReason is null));
            }

            InvestigationWork.Touch(scope, investigation);
            scope.Sign(proof, "approved", (nameof(RetestPlan), plan.Id), SignedPlan.ContentOf(plan));
            return true;
        }, cancellation);

    /// <summary>Takes a plan back before its approval.</summary>
    public Task<bool> WithdrawAsync(Actor actor, Guid planId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WithdrawDeed, actor, Reason: reason), async (scope, token) =>
        {
            var (investigation, plan) = await FindAsync(scope, planId, version, token);
            plan.Withdraw(scope, reason);
            InvestigationWork.Touch(scope, investigation);
            return true;
        }, cancellation);

    /// <summary>
    /// Permits one new sample of the held lot by signature, with the evidence that the first one cannot stand for the lot or is used up. Its result stands beside the first, which is set aside only when the
    /// investigation finds that the sample was not representative.
    /// </summary>
    public Task<bool> PermitSampleAsync(Actor actor, Guid investigationId, string evidence, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SampleDeed, actor, Reason: evidence), async (scope, token) =>
        {
            var investigation = await InvestigationWork.FindAsync(scope, investigationId, version, token);
            investigation.RequireOutOfSpecification();
            await InvestigationDuties.RequireOtherThanAnalystAsync(scope, investigation, token);
            var shown = await scope.FindAsync<Run>(investigation.RunId, "run", token);
            var lot = await scope.FindAsync<Lot>(investigation.LotId, "lot", token);
            lot.PermitSample(shown.SampleId, evidence);
            scope.Sign(proof, "new sample permitted", ("Investigation", investigation.Id), JsonSerializer.Serialize(new { investigation.Number, shown.SampleCode, evidence }));
            return true;
        }, cancellation);

    /// <summary>The retests of an investigation, with what each showed, in their order.</summary>
    public Task<List<RetestResult>> ShownAsync(Actor actor, Guid investigationId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var plans = await data.Set<RetestPlan>().Where(plan => plan.InvestigationId == investigationId).Select(plan => plan.Id).ToListAsync(token);
            var runs = await data.Runs.Where(run => run.RetestPlanId != null && plans.Contains(run.RetestPlanId.Value) && run.EvaluationId != null).OrderBy(run => run.Number).ToListAsync(token);
            var ids = runs.ConvertAll(run => run.EvaluationId!.Value);
            var stored = await data.Evaluations.Where(evaluation => ids.Contains(evaluation.Id)).ToDictionaryAsync(evaluation => evaluation.Id, token);
            var versions = runs.ConvertAll(run => run.SpecificationVersionId);
            var limits = (await data.Set<Limit>().Where(limit => versions.Contains(limit.SpecificationVersionId)).OrderBy(limit => limit.Position).ToListAsync(token)).ToLookup(limit => limit.SpecificationVersionId);
            return runs.ConvertAll(run => new RetestResult(run.Id, [.. limits[run.SpecificationVersionId].Zip(OpenedEvaluation.Of(stored[run.EvaluationId!.Value]).Result.Verdicts, (limit, verdict) => new JudgedLimit(limit, verdict))]));
        }, cancellation);

    /// <summary>The runs of an approved plan, whatever became of them.</summary>
    public Task<List<RunRow>> RunsAsync(Actor actor, Guid planId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => RunReading.Rows(data.Runs.Where(run => run.RetestPlanId == planId).OrderBy(run => run.Number)).ToListAsync(token), cancellation);

    private static async Task<(Investigation Investigation, RetestPlan Plan)> FindAsync(DeedScope scope, Guid planId, long version, CancellationToken cancellation)
    {
        var found = await scope.FindAsync<RetestPlan>(planId, "retest plan", cancellation);
        var investigation = await InvestigationWork.FindAsync(scope, found.InvestigationId, null, cancellation);
        investigation.RequireOutOfSpecification();
        var plan = investigation.RetestPlans.Single(one => one.Id == planId);
        DeedScope.RequireVersion(plan, version, "The retest plan");
        return (investigation, plan);
    }

    private static void Check(RetestDraft draft)
    {
        if (draft.Count is < 1 or > RetestPlan.Most)
        {
            throw new RefusedException("retest-count", $"A plan has 1 to {RetestPlan.Most} determinations.", "count");
        }

        if (draft.Portion.Trim().Length is < 5 or > 2_000 || draft.Evaluation.Trim().Length is < 5 or > 2_000)
        {
            throw new RefusedException("retest-words", "Say which part of the same sample is sieved, and how the results will be judged (5 to 2 000 letters each).", "portion");
        }

        if (draft.SamePersonReason is { } reason && reason.Trim().Length < 5)
        {
            throw new RefusedException("retest-person", "Say why the same technician may make the retests (at least five letters), or have somebody else make them.", "samePersonReason");
        }
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Supposes a cause, has the measurements approved, writes them down and says what they told.</summary>
public sealed class HypothesisWork(WritePath writing)
{
    private static readonly DeedKind ProposeDeed = new("investigations.propose-hypothesis", "Hypothesis proposed", Permission.Investigate);
    private static readonly DeedKind ApproveDeed = new("investigations.approve-hypothesis", "Hypothesis measurements approved", Permission.ConcludeInvestigations);
    private static readonly DeedKind MeasureDeed = new("investigations.measure-hypothesis", "Measured for a hypothesis", Permission.Investigate);
    private static readonly DeedKind JudgeDeed = new("investigations.judge-hypothesis", "Hypothesis judged", Permission.Investigate, ReasonRequired: true);
    private static readonly DeedKind WithdrawDeed = new("investigations.withdraw-hypothesis", "Hypothesis withdrawn", Permission.Investigate, ReasonRequired: true);

    /// <summary>Writes down a supposed cause, what is to be measured, and which outcome will support it.</summary>
    public Task<Guid> ProposeAsync(Actor actor, Guid investigationId, string what, string how, string judging, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ProposeDeed, actor, key) { Asked = new { investigationId, what, how, judging } }, async (scope, token) =>
        {
            var investigation = await InvestigationWork.FindAsync(scope, investigationId, null, token);
            investigation.RequireOutOfSpecification();
            foreach (var (words, member) in ((string, string)[])[(what, nameof(what)), (how, nameof(how)), (judging, nameof(judging))])
            {
                if (words.Trim().Length is < 10 or > 2_000)
                {
                    throw new RefusedException("hypothesis-words", "Say which cause is supposed, what is measured and how, and which outcome would support it or rule it out (10 to 2 000 letters each).", member);
                }
            }

            var added = new Hypothesis { Id = scope.NewId(), InvestigationId = investigation.Id, What = what.Trim(), How = how.Trim(), Judging = judging.Trim(), ProposedById = scope.PersonId, ProposedByName = scope.By.Name, ProposedAt = scope.Now };
            scope.Data.Add(added);
            InvestigationWork.Touch(scope, investigation);
            return added.Id;
        }, cancellation);

    /// <summary>Approves the measurements by signature, before the first of them; never whoever proposed them.</summary>
    public Task<bool> ApproveAsync(Actor actor, Guid hypothesisId, SecretProof proof, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(ApproveDeed, actor), hypothesisId, version, async (scope, hypothesis, token) =>
        {
            await InvestigationDuties.RequireOtherThanProposerAsync(scope, hypothesis.ProposedById, token);
            hypothesis.Approve(scope);
            scope.Sign(proof, "approved", (nameof(Hypothesis), hypothesis.Id), SignedPlan.ContentOf(hypothesis));
        }, cancellation);

    /// <summary>Writes a measured value down. It stays here: nothing reports it.</summary>
    public Task<bool> MeasureAsync(Actor actor, Guid hypothesisId, string what, decimal value, string unit, string? key, CancellationToken cancellation) =>
        ChangeAsync(new Deed(MeasureDeed, actor, key) { Asked = new { hypothesisId, what, value, unit } }, hypothesisId, null, (scope, hypothesis, _) =>
        {
            hypothesis.RequireApproved();
            if (what.Trim().Length is < 5 or > 400 || unit.Trim().Length is 0 or > 20 || Math.Abs(value) > 1_000_000_000m)
            {
                throw new RefusedException("measurement", "Say what was measured and with what (5 to 400 letters), the value and its unit.", "what");
            }

            scope.Data.Add(new HypothesisMeasurement { Id = scope.NewId(), HypothesisId = hypothesis.Id, What = what.Trim(), Value = value, Unit = unit.Trim(), At = scope.Now, PersonName = scope.By.Name });
            scope.Data.Entry(hypothesis).State = EntityState.Modified;
            return Task.CompletedTask;
        }, cancellation);

    /// <summary>Says what the measurements told, by the rule that was written before them.</summary>
    public Task<bool> JudgeAsync(Actor actor, Guid hypothesisId, HypothesisOutcome outcome, string words, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(JudgeDeed, actor, Reason: words), hypothesisId, version, (scope, hypothesis, _) =>
        {
            hypothesis.Judge(scope, outcome, words);
            return Task.CompletedTask;
        }, cancellation);

    /// <summary>Gives a hypothesis up; what was measured for it stays.</summary>
    public Task<bool> WithdrawAsync(Actor actor, Guid hypothesisId, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(WithdrawDeed, actor, Reason: reason), hypothesisId, version, (scope, hypothesis, _) =>
        {
            hypothesis.Withdraw(scope, reason);
            return Task.CompletedTask;
        }, cancellation);

    private Task<bool> ChangeAsync(Deed deed, Guid hypothesisId, long? version, Func<DeedScope, Hypothesis, CancellationToken, Task> change, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var found = await scope.FindAsync<Hypothesis>(hypothesisId, "hypothesis", token);
            var investigation = await InvestigationWork.FindAsync(scope, found.InvestigationId, null, token);
            investigation.RequireOutOfSpecification();
            var hypothesis = investigation.Hypotheses.Single(one => one.Id == hypothesisId);
            if (version is { } expected)
            {
                DeedScope.RequireVersion(hypothesis, expected, "The hypothesis");
            }

            await change(scope, hypothesis, token);
            InvestigationWork.Touch(scope, investigation);
            return true;
        }, cancellation);
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Findings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Submits a finished run: it is evaluated, and a value out of specification holds the lot and opens an investigation in the same transaction.</summary>
public sealed class RunSubmission(WritePath writing)
{
    private static readonly DeedKind SubmitDeed = new("runs.submit", "Run submitted", Permission.CarryOutRuns);

    /// <summary>Submits a run whose steps are all done.</summary>
    public Task<bool> SubmitAsync(Actor actor, Guid runId, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SubmitDeed, actor, key) { Asked = runId }, async (scope, token) =>
        {
            var run = await scope.WholeRunAsync(runId);
            scope.About("Run", run.Id, run.Label);
            run.RequireGoingOn();
            var method = await scope.MethodOfAsync(run);
            if (RunPlan.Next(run, method) is { } missing)
            {
                throw new RefusedException("step-missing", $"The run is not finished: {Words(missing)} is still to come.");
            }

            await EvaluateAsync(scope, run, method, token);
            await HoldIfOutAsync(scope, run, token);
            return true;
        }, cancellation);

    private static async Task EvaluateAsync(DeedScope scope, Run run, MethodVersion method, CancellationToken cancellation)
    {
        var balance = await scope.FindAsync<Balance>(run.BalanceId!.Value, "balance", cancellation);
        var specification = await scope.Data.SpecificationVersions.Include(version => version.Limits).SingleAsync(version => version.Id == run.SpecificationVersionId, cancellation);
        var request = RunRequest.Of(run, method, balance, specification.Limits)!;
        var result = OpenedEvaluation.Evaluate(request);
        var evaluation = OpenedEvaluation.Store(scope, run.Id, request, result);
        scope.Data.Add(evaluation);
        var findings = result.Findings.Count(finding => finding.Severity == FindingSeverity.Finding) + RunFindings.Of(run, method).Count;
        run.Submit(scope, evaluation.Id, findings);
    }

    private static async Task HoldIfOutAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var result = await SampleResult.OfAsync(scope.Data, run.SampleId, cancellation);
        var outside = result.Limits.Where(judged => judged.IsOut).ToList();
        if (outside.Count == 0 || await scope.Data.Investigations.AnyAsync(open => open.RunId == run.Id && open.State != InvestigationState.Closed, cancellation))
        {
            return;
        }

        var lot = await scope.FindAsync<Lot>(run.LotId, "lot", cancellation);
        await InvestigationWork.OpenAsync(scope, lot, (run.Id, run.Number), string.Join("; ", outside.Select(Words)), cancellation);
    }

    private static string Words(JudgedLimit judged) => string.Create(CultureInfo.InvariantCulture, $"{judged.Limit.Words} is {judged.Printed} {Unit(judged.Limit)}({Bounds(judged.Limit)})");

    private static string Unit(Limit limit) => limit.Unit == "1" ? string.Empty : limit.Unit + " ";

    private static string Bounds(Limit limit) => (limit.Lower, limit.Upper) switch
    {
        ({ } lower, { } upper) => string.Create(CultureInfo.InvariantCulture, $"limits {lower:0.######} to {upper:0.######}"),
        ({ } lower, null) => string.Create(CultureInfo.InvariantCulture, $"at least {lower:0.######}"),
        (null, { } upper) => string.Create(CultureInfo.InvariantCulture, $"at most {upper:0.######}"),
        _ => "no bound",
    };

    private static string Words(RunStep step) => step.Kind == RunStepKind.Sieve ? "sieving" : $"weighing the {step.Weighing!.Value.Words()}";
}

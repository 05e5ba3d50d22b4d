using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Findings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What happens at once when a value is out of specification. Implemented by Investigations, which lean on runs and not the other way round.</summary>
public interface IOutOfSpecification
{
    /// <summary>Holds the run's lot and opens an investigation within the running deed, unless one of this sample is open already.</summary>
    /// <param name="scope">The running deed.</param>
    /// <param name="run">The run that showed it.</param>
    /// <param name="apartOnly">Whether no value is out, but determinations lie too far apart for a result.</param>
    /// <param name="what">What is out, in words.</param>
    /// <param name="cancellation">Ends the deed.</param>
    Task FoundAsync(DeedScope scope, Run run, bool apartOnly, string what, CancellationToken cancellation);

    /// <summary>Opens the lighter case of a value within its limits but off the trend or beyond an alert limit, or notes it in the case of this sample that is open already.</summary>
    Task OffTrendAsync(DeedScope scope, Run run, string what, CancellationToken cancellation);

    /// <summary>A run is given up that showed a value out of specification already: the same as if it had been submitted, and what is investigated already gets a note.</summary>
    Task GivenUpAsync(DeedScope scope, Run run, string what, CancellationToken cancellation);

    /// <summary>Refuses to start what takes the place of a run that was given up with a value out of specification, unless its investigation found a cause in the laboratory.</summary>
    Task RequireExplainedAsync(DeedScope scope, Run run, CancellationToken cancellation);
}

/// <summary>Submits a finished run: it is evaluated, and a value out of specification holds the lot and opens an investigation in the same transaction.</summary>
public sealed class RunSubmission(WritePath writing, IOutOfSpecification outOfSpecification)
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
            await RunAuthorisation.TakeUpAsync(scope, run, method, token);
            await RetestDuties.RequireAnotherPersonAsync(scope, run, token);
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
        var product = await scope.FindAsync<Product>(run.ProductId, "product", cancellation);
        var request = RunRequest.Of(run, method, product, balance, specification.Limits)!;
        var result = OpenedEvaluation.Evaluate(request);
        var evaluation = OpenedEvaluation.Store(scope, run.Id, request, result);
        scope.Data.Add(evaluation);
        var findings = result.Findings.Where(finding => finding.Severity == FindingSeverity.Finding).Select(finding => finding.Message).Concat(RunFindings.Of(run, method));
        run.Submit(scope, evaluation.Id, [.. findings]);
    }

    private async Task HoldIfOutAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        // A retest stands beside the result that is investigated already.
        if (run.RetestPlanId is not null)
        {
            return;
        }

        var result = await SampleResult.OfAsync(scope.Data, run.SampleId, cancellation);
        var outside = result.Limits.Where(judged => judged.IsOut || judged.IsApart).ToList();
        if (outside.Count > 0)
        {
            await outOfSpecification.FoundAsync(scope, run, !outside.Exists(judged => judged.IsOut), string.Join("; ", outside.SelectMany(Out)), cancellation);
            return;
        }

        string?[] off = [AlertWords(result), await TrendWatching.OffTrendAsync(scope.Data, run, result, cancellation)];
        if (off.OfType<string>().ToList() is { Count: > 0 } words)
        {
            await outOfSpecification.OffTrendAsync(scope, run, string.Join("; ", words), cancellation);
        }
    }

    // The determinations that lie too far apart, or of which one does not conform, are named with their values.
    private static IEnumerable<string> Out(JudgedLimit judged) => judged.Findings.Count > 0 ? judged.Findings.Select(finding => finding.TrimEnd('.')) : [Words(judged)];

    private static string? AlertWords(SampleResult result) =>
        result.Limits.Where(judged => judged.Alert is not null).Select(judged => $"{judged.Limit.Words} is {judged.Printed} {Unit(judged.Limit)}and lies {judged.Alert}, within its limits ({judged.Limit.Bounds()})").ToList() is { Count: > 0 } words
            ? $"Alert limit: {string.Join("; ", words)}" : null;

    internal static string Words(JudgedLimit judged) => string.Create(CultureInfo.InvariantCulture, $"{judged.Limit.Words} is {judged.Printed} {Unit(judged.Limit)}({Bounds(judged.Limit)})");

    private static string Unit(Limit limit) => limit.Unit == "1" ? string.Empty : limit.Unit + " ";

    private static string Bounds(Limit limit) => (limit.Lower, limit.Upper) switch
    {
        ({ } lower, { } upper) => string.Create(CultureInfo.InvariantCulture, $"limits {lower:0.######} to {upper:0.######}"),
        ({ } lower, null) => string.Create(CultureInfo.InvariantCulture, $"at least {lower:0.######}"),
        (null, { } upper) => string.Create(CultureInfo.InvariantCulture, $"at most {upper:0.######}"),
        _ => "no bound",
    };

    private static string Words(RunStep step) => step.Kind switch
    {
        RunStepKind.Sieve => "sieving",
        RunStepKind.Prepare => step.Preparation!.Value.Words(),
        _ => $"weighing the {step.Weighing!.Value.Words()}",
    };
}

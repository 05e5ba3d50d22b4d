using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A run as a list shows it.</summary>
public sealed record RunRow(
    Guid Id, string Number, string SampleCode, Guid LotId, string LotNumber, string ProductCode, int Replicate, RunState State, int Findings, string? StartedByName, DateTimeOffset? StartedAt,
    Guid? SubmittedById, string? SubmittedByName, DateTimeOffset? SubmittedAt, DateTimeOffset PlannedAt, string? StateReason, Guid? StartedById, string? FindingsInWords, bool IsRetest)
{
    /// <summary>Which of several it is: "replicate 2", "retest 1".</summary>
    public string Place => Run.PlaceOf(Replicate, IsRetest);
}

/// <summary>A run with everything that the bench and the review show.</summary>
/// <param name="Run">With sieves, weighings and intervals.</param>
/// <param name="Method">The method's version in force when it was booked in.</param>
/// <param name="MethodCode">The method's code.</param>
/// <param name="Product">The product.</param>
/// <param name="Specification">The specification's version with its limits.</param>
/// <param name="Balance">The balance, once started.</param>
/// <param name="Next">The next step; null when all are done.</param>
/// <param name="SoFar">The evaluation of the sieves finished so far; null before the first.</param>
/// <param name="Stored">The evaluation of the last submission.</param>
/// <param name="Findings">What the reviewer has to look at.</param>
/// <param name="LotState">The state of its lot.</param>
public sealed record RunView(
    Run Run, MethodVersion Method, string MethodCode, Product Product, SpecificationVersion Specification, Balance? Balance, RunStep? Next, EvaluationOutcome? SoFar, OpenedEvaluation? Stored, IReadOnlyList<string> Findings, LotState LotState)
{
    /// <summary>
    /// What whoever works on the run or reviews it must know where its lot is decided already; null otherwise. What was begun may be finished: a measurement is never cut off to spare anybody its result.
    /// </summary>
    public string? LotDecidedWords => LotState is LotState.Rejected or LotState.Released or LotState.ReleasedByConcession && Run.State is not (RunState.Invalidated or RunState.Abandoned or RunState.Planned)
        ? $"Lot {Run.LotNumber} is {LotState.Words()} already. {(Run.State is RunState.InProgress or RunState.Returned ? "What was begun may be finished or abandoned with a reason; its result stays and is counted" : "This result stays and is counted")}, and the decision is not changed by it: only a re-opening by two persons does that."
        : null;
}

/// <summary>Reads runs.</summary>
public sealed class RunReading(ReadPath reading)
{
    /// <summary>One run, whole.</summary>
    public Task<RunView?> FindAsync(Actor actor, Guid runId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.Runs.Whole().FirstOrDefaultAsync(run => run.Id == runId, token) is { } run ? await ViewAsync(data, run, token) : null, cancellation);

    /// <summary>Runs in the states asked for: first those with findings, then the oldest.</summary>
    public Task<List<RunRow>> InStatesAsync(Actor actor, IReadOnlyList<RunState> states, int most, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            Rows(data.Runs.Where(run => states.Contains(run.State)).OrderByDescending(run => run.Findings).ThenBy(run => run.PlannedAt).Take(most)).ToListAsync(token), cancellation);

    /// <summary>Every run ever made of a lot, also abandoned and invalidated ones.</summary>
    public Task<List<RunRow>> OfLotAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Rows(data.Runs.Where(run => run.LotId == lotId).OrderBy(run => run.Number)).ToListAsync(token), cancellation);

    /// <summary>The results of a lot, one for each of its samples.</summary>
    public Task<List<SampleResult>> ResultsOfLotAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => ResultsOfLotAsync(data, lotId, token), cancellation);

    /// <summary>The last accepted runs of a product, newest first, for comparison.</summary>
    public Task<List<EvaluatedRun>> LastAcceptedAsync(Actor actor, Guid productId, Guid exceptRun, int most, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var runs = await data.Runs.Where(run => run.ProductId == productId && run.RetestPlanId == null && run.State == RunState.Accepted && run.Id != exceptRun).OrderByDescending(run => run.SubmittedAt).Take(most).ToListAsync(token);
            var ids = runs.Select(run => run.EvaluationId).ToList();
            var evaluations = await data.Evaluations.Where(evaluation => ids.Contains(evaluation.Id)).ToListAsync(token);
            return runs.Join(evaluations, run => run.EvaluationId, evaluation => evaluation.Id, (run, evaluation) => new EvaluatedRun(run, OpenedEvaluation.Of(evaluation))).ToList();
        }, cancellation);

    /// <summary>The results of a lot within a deed or a reading.</summary>
    internal static async Task<List<SampleResult>> ResultsOfLotAsync(LaboratoryContext data, Guid lotId, CancellationToken cancellation)
    {
        var samples = await data.Runs.Where(run => run.LotId == lotId && run.RetestPlanId == null && run.State != RunState.Invalidated && run.State != RunState.Abandoned)
            .Select(run => new { run.SampleId, run.SampleCode }).Distinct().OrderBy(sample => sample.SampleCode).ToListAsync(cancellation);
        var results = new List<SampleResult>();
        foreach (var sample in samples)
        {
            results.Add(await SampleResult.OfAsync(data, sample.SampleId, cancellation));
        }

        return results;
    }

    private static async Task<RunView> ViewAsync(LaboratoryContext data, Run run, CancellationToken cancellation)
    {
        var method = await data.MethodVersions.Include(method => method.Sieves).SingleAsync(method => method.Id == run.MethodVersionId, cancellation);
        var code = await data.Methods.Where(one => one.Id == method.DocumentId).Select(one => one.Code).SingleAsync(cancellation);
        var product = await data.Products.SingleAsync(product => product.Id == run.ProductId, cancellation);
        var specification = await data.SpecificationVersions.Include(version => version.Limits).SingleAsync(version => version.Id == run.SpecificationVersionId, cancellation);
        var balance = await data.Balances.FirstOrDefaultAsync(balance => balance.Id == run.BalanceId, cancellation);
        var stored = await data.Evaluations.FirstOrDefaultAsync(evaluation => evaluation.Id == run.EvaluationId, cancellation);
        var request = balance is null ? null : RunRequest.Of(run, method, product, balance, specification.Limits);
        return new RunView(
            run, method, code, product, specification, balance, run.State is RunState.InProgress or RunState.Returned ? RunPlan.Next(run, method) : null,
            request is null ? null : Engine.Evaluate(request), stored is null ? null : OpenedEvaluation.Of(stored), RunFindings.Of(run, method),
            await data.Lots.Where(lot => lot.Id == run.LotId).Select(lot => lot.State).SingleAsync(cancellation));
    }

    internal static IQueryable<RunRow> Rows(IQueryable<Run> runs) =>
        runs.Select(run => new RunRow(
            run.Id, run.Number, run.SampleCode, run.LotId, run.LotNumber, run.ProductCode, run.Replicate, run.State, run.Findings, run.StartedByName, run.StartedAt,
            run.SubmittedById, run.SubmittedByName, run.SubmittedAt, run.PlannedAt, run.StateReason, run.StartedById, run.FindingsInWords, run.RetestPlanId != null));
}

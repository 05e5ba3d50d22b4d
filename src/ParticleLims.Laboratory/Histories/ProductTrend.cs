using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Histories;

/// <summary>A run within the trend of its product.</summary>
/// <param name="LotNumber">Its lot.</param>
/// <param name="At">When it was submitted.</param>
/// <param name="OfThisLot">Whether it belongs to the lot that is decided on.</param>
/// <param name="Verdicts">What it shows of each of the limits, in their order.</param>
public sealed record TrendRun(string LotNumber, DateTimeOffset At, bool OfThisLot, IReadOnlyList<LimitVerdict> Verdicts);

/// <summary>The last runs of a product beside those of one lot, held against the lot's limits.</summary>
/// <param name="Limits">The limits of the lot's specification.</param>
/// <param name="Runs">The runs, oldest first.</param>
public sealed record ProductTrend(IReadOnlyList<Limit> Limits, IReadOnlyList<TrendRun> Runs);

/// <summary>Reads what a product showed before a lot: whoever decides sees whether the mill drifts (EU GMP chapter 6, 6.9). Nothing is stored, and nothing of it is signed.</summary>
public sealed class ProductTrendReading(ReadPath reading)
{
    /// <summary>So many runs are shown.</summary>
    public const int MostRuns = 20;

    /// <summary>The trend up to the lot's own runs; later ones are left out, so that an old lot is seen as it was decided on. Null where no run of the lot is in.</summary>
    public Task<ProductTrend?> OfAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var own = await data.Runs.AsNoTracking().Where(run => run.LotId == lotId && run.RetestPlanId == null && (run.State == RunState.Submitted || run.State == RunState.Accepted)).OrderByDescending(run => run.SubmittedAt).FirstOrDefaultAsync(token);
            return own is null ? null : await OfAsync(data, own, token);
        }, cancellation);

    private static async Task<ProductTrend?> OfAsync(LaboratoryContext data, Run own, CancellationToken cancellation)
    {
        var limits = await data.Set<Limit>().AsNoTracking().Where(limit => limit.SpecificationVersionId == own.SpecificationVersionId).OrderBy(limit => limit.Position).ToListAsync(cancellation);
        var wanted = limits.ConvertAll(limit => RunRequest.LimitOf(limit, repeatabilityLimitPercent: null));
        var rows = await (from run in data.Runs
                          join evaluation in data.Evaluations on run.EvaluationId equals evaluation.Id
                          where run.ProductId == own.ProductId && run.RetestPlanId == null && run.SubmittedAt <= own.SubmittedAt && (run.State == RunState.Accepted || (run.LotId == own.LotId && run.State == RunState.Submitted))
                          orderby run.SubmittedAt descending
                          select new { run.LotNumber, run.LotId, run.SubmittedAt, evaluation.Input }).AsNoTracking().Take(MostRuns).ToListAsync(cancellation);
        return new ProductTrend(limits,
        [
            .. from row in rows.AsEnumerable().Reverse()
               let evaluated = Engine.Evaluate(EvaluationJson.Read(row.Input) with { Limits = wanted }) as Evaluated
               where evaluated is not null
               select new TrendRun(row.LotNumber, row.SubmittedAt!.Value, row.LotId == own.LotId, evaluated.Result.Verdicts),
        ]);
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Conformity.History;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Histories;

/// <summary>
/// Holds a draft specification against everything that its product showed so far, before anybody approves it (docs/science/judging-history.md). Nothing is stored.
/// </summary>
public sealed class DraftScoring(ReadPath reading)
{
    /// <summary>So many failed results are named; all are counted.</summary>
    public const int MostShown = 50;

    /// <summary>Over so many of the last runs capability and usual uncertainty are computed.</summary>
    public const int LastRuns = 200;

    /// <summary>What the limits would have said.</summary>
    /// <exception cref="RefusedException">A limit says nothing or contradicts itself, or there is no such product.</exception>
    public Task<DraftScore> OfAsync(Actor actor, Guid productId, IReadOnlyList<LimitDraft> limits, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            if (!await data.Products.AnyAsync(product => product.Id == productId, token))
            {
                throw new RefusedException("not-found", "There is no such product.");
            }

            new SpecificationDraft(limits).Check();
            return await ScoreAsync(data, productId, [.. limits.Select((limit, index) => limit.ToLimit(Guid.Empty, index + 1))], token);
        }, cancellation);

    private static async Task<DraftScore> ScoreAsync(LaboratoryContext data, Guid productId, List<Limit> limits, CancellationToken cancellation)
    {
        var last = await LastAsync(data, productId, limits, cancellation);
        var expanded = limits.ConvertAll(limit => Middle([.. last.Select(verdicts => verdicts[limit.Position - 1].ExpandedUncertainty).OfType<double>()]));
        var whole = limits.FindAll(IsWhole);
        var history = whole.Count == 0 ? [] : await ProductHistory.OfAsync(data, productId, cancellation);
        var stored = whole.ConvertAll(limit => new StoredLimit { Limit = RunRequest.LimitOf(limit, repeatabilityLimitPercent: null), ExpandedUncertainty = expanded[limit.Position - 1] ?? 0 });
        var judged = history.Select(curves => (curves, Verdicts: curves.Curves.Judge(stored))).ToList();
        var alerts = whole.FindAll(limit => limit.AlertInWords() is not null);
        var asked = alerts.ConvertAll(limit => new StoredLimit { Limit = AlertOf(limit), ExpandedUncertainty = 0 });
        var alerted = alerts.Count == 0 ? [] : history.Select(curves => curves.Curves.Judge(asked)).ToList();
        int Beyond(Limit limit) => judged.Zip(alerted).Sum(one => Enumerable.Range(0, one.First.curves.Curves.Count)
            .Count(row => one.First.Verdicts.Of(row, whole.IndexOf(limit)) == Verdict.Conforms && one.Second.Of(row, alerts.IndexOf(limit)) == Verdict.DoesNotConform));
        return new DraftScore
        {
            Results = judged.Sum(one => one.curves.Curves.Count),
            Conform = judged.Sum(one => one.Verdicts.AllLimits.Conform), DoNotConform = judged.Sum(one => one.Verdicts.AllLimits.DoNotConform), Undecided = judged.Sum(one => one.Verdicts.AllLimits.Undecided),
            Limits = limits.ConvertAll(limit => ScoreOf(limit, whole.IndexOf(limit), [.. judged.Select(one => one.Verdicts)], alerts.Contains(limit) ? Beyond(limit) : null, last, expanded[limit.Position - 1])),
            Failed = await FailedAsync(data, judged, whole, cancellation),
        };
    }

    // An alert limit is held against the unrounded value without a guard band.
    private static LimitInput AlertOf(Limit limit) => RunRequest.LimitOf(limit, repeatabilityLimitPercent: null) with { Lower = limit.LowerAlert, Upper = limit.UpperAlert, Rule = DecisionRule.Simple };

    private static LimitScore ScoreOf(Limit limit, int place, List<StoredVerdicts> judged, int? beyondAlert, List<IReadOnlyList<LimitVerdict>> last, double? expanded)
    {
        var verdicts = last.ConvertAll(all => all[limit.Position - 1]);
        var capability = CapabilityOf(limit, [.. verdicts.Where(verdict => verdict.Relation == Relation.Equal).Select(verdict => verdict.Value).OfType<double>()]);
        if (place >= 0)
        {
            var counts = judged.ConvertAll(one => one.ByLimit[place]);
            return new LimitScore(limit, counts.Sum(one => one.Conform), counts.Sum(one => one.DoNotConform), counts.Sum(one => one.Undecided), beyondAlert, null, capability, expanded);
        }

        var conform = verdicts.Count(verdict => verdict.Verdict is Verdict.Conforms or Verdict.ConformsWithinGuardBand);
        var not = verdicts.Count(verdict => verdict.Verdict is Verdict.DoesNotConform or Verdict.DoesNotConformWithinGuardBand);
        return new LimitScore(limit, conform, not, verdicts.Count - conform - not, limit.AlertInWords() is null ? null : verdicts.Count(verdict => new JudgedLimit(limit, verdict).Alert is not null), verdicts.Count, capability, expanded);
    }

    // Slopes, their sizes, surfaces and four states need the whole evaluation of each run.
    private static bool IsWhole(Limit limit) => limit.Rule != LimitRule.FourState && limit.Characteristic is LimitCharacteristic.Passing or LimitCharacteristic.Retained or LimitCharacteristic.Percentile or LimitCharacteristic.Span;

    private static ProcessCapability? CapabilityOf(Limit limit, List<double> values) =>
        values.Count >= 2 && values.Exists(value => value != values[0]) && limit.Lower != limit.Upper
            ? ProcessCapability.Of(values, new CapabilityLimits { Lower = (double?)limit.Lower, Upper = (double?)limit.Upper })
            : null;

    private static double? Middle(List<double> values)
    {
        values.Sort();
        return values.Count == 0 ? null : values[values.Count / 2];
    }

    private static async Task<List<IReadOnlyList<LimitVerdict>>> LastAsync(LaboratoryContext data, Guid productId, List<Limit> limits, CancellationToken cancellation)
    {
        var inputs = await (from run in data.Runs
                            join evaluation in data.Evaluations on run.EvaluationId equals evaluation.Id
                            where run.ProductId == productId && run.State == RunState.Accepted && run.RetestPlanId == null
                            orderby run.SubmittedAt descending
                            select evaluation.Input).Take(LastRuns).ToListAsync(cancellation);
        var wanted = limits.ConvertAll(limit => RunRequest.LimitOf(limit, repeatabilityLimitPercent: null));
        return [.. inputs.Select(input => Engine.Evaluate(EvaluationJson.Read(input) with { Limits = wanted })).OfType<Evaluated>().Select(evaluated => evaluated.Result.Verdicts)];
    }

    private static async Task<List<FailedResult>> FailedAsync(LaboratoryContext data, List<(PastCurves Curves, StoredVerdicts Verdicts)> judged, List<Limit> limits, CancellationToken cancellation)
    {
        var failed = judged.SelectMany(one => one.Curves.Results.Index().Where(result => one.Verdicts.Of(result.Index) == Verdict.DoesNotConform).Select(result => (result.Item, Missed: Missed(one.Verdicts, result.Index, limits))))
            .OrderByDescending(one => one.Item.At).Take(MostShown).ToList();
        var ids = failed.ConvertAll(one => one.Item.SampleId);
        var named = await (from sample in data.Set<Sample>()
                           join lot in data.Lots on sample.LotId equals lot.Id
                           where ids.Contains(sample.Id)
                           select new { sample.Id, sample.Code, LotId = lot.Id, lot.Number, lot.State }).ToDictionaryAsync(one => one.Id, cancellation);
        return failed.ConvertAll(one => new FailedResult(named[one.Item.SampleId].LotId, named[one.Item.SampleId].Number, named[one.Item.SampleId].Code, named[one.Item.SampleId].State, one.Item.At, one.Missed));
    }

    private static List<string> Missed(StoredVerdicts verdicts, int row, List<Limit> limits) =>
        [.. limits.Index().Where(limit => verdicts.Of(row, limit.Index) == Verdict.DoesNotConform).Select(limit => limit.Item.Words)];
}

using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Laboratory.Histories;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Pictures.Plots;

namespace ParticleLims.Web.Dispositions;

/// <summary>What a product showed of one limit, run by run, as a picture.</summary>
internal static class TrendBesideLot
{
    /// <summary>The chart of one limit; a run that says only "below" or "above" has no point.</summary>
    public static ControlChart Of(ProductTrend trend, int position)
    {
        var limit = trend.Limits[position];
        List<TrendRun> shown = [.. trend.Runs.Where(run => run.Verdicts[position] is { Relation: Relation.Equal, Value: not null })];
        var begins = shown.Find(run => run.OfThisLot);
        return new ControlChart
        {
            Title = $"{limit.Words} of the last runs", ValueName = limit.Unit == "1" ? limit.Words : $"{limit.Words}, {limit.Unit}", OrderName = "Lot", Decimals = limit.Digits,
            Points = [.. from run in shown
                         let verdict = run.Verdicts[position]
                         select new ControlPoint(
                             run.LotNumber, verdict.Value!.Value, verdict.Verdict is Verdict.DoesNotConform or Verdict.DoesNotConformWithinGuardBand ? "does not conform" : null, ReferenceEquals(run, begins) ? "this lot" : null, run.At)],
            Lines = [.. Lines(limit)],
        };
    }

    private static IEnumerable<ControlLine> Lines(Limit limit) => new (string Label, ControlLineKind Kind, decimal? Value)[]
    {
        ("lower limit", ControlLineKind.Limit, limit.Lower), ("upper limit", ControlLineKind.Limit, limit.Upper),
        ("alert", ControlLineKind.Warning, limit.LowerAlert), ("alert", ControlLineKind.Warning, limit.UpperAlert),
    }.Where(line => line.Value is not null).Select(line => ControlLine.Level(line.Label, line.Kind, (double)line.Value!.Value));
}

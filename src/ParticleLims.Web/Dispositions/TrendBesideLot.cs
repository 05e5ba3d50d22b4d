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
        return new ControlChart
        {
            Title = $"{limit.Words} of the last runs", ValueName = limit.Unit == "1" ? limit.Words : $"{limit.Words}, {limit.Unit}", OrderName = "Lot", Decimals = limit.Digits,
            Points = [.. trend.Runs.Select(run => (Run: run, Verdict: run.Verdicts[position])).Where(one => one.Verdict is { Relation: Relation.Equal, Value: not null }).Select(one => new ControlPoint(
                one.Run.LotNumber, one.Verdict.Value!.Value, one.Verdict.Verdict is Verdict.DoesNotConform or Verdict.DoesNotConformWithinGuardBand ? "does not conform" : null, null, one.Run.At))],
            Lines = [.. Lines(limit)],
        };
    }

    private static IEnumerable<ControlLine> Lines(Limit limit) => new (string Label, ControlLineKind Kind, decimal? Value)[]
    {
        ("lower limit", ControlLineKind.Limit, limit.Lower), ("upper limit", ControlLineKind.Limit, limit.Upper),
        ("alert", ControlLineKind.Warning, limit.LowerAlert), ("alert", ControlLineKind.Warning, limit.UpperAlert),
    }.Where(line => line.Value is not null).Select(line => ControlLine.Level(line.Label, line.Kind, (double)line.Value!.Value));
}

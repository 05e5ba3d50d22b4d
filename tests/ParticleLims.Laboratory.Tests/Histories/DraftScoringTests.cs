using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Histories;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Histories;

/// <summary>A draft is held against what its product showed so far, and says which lots it would have failed.</summary>
public sealed class DraftScoringTests
{
    private static readonly LimitDraft Passing = new(LimitCharacteristic.Passing, 97m, null, 1, Aperture.FromMicrometres(45m));

    [Theory]
    [EachDatabase]
    public async Task A_tighter_draft_says_which_lots_it_would_have_failed_and_a_wider_one_none(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, scoring, author) = (laboratory.Small, laboratory.Small.Get<DraftScoring>(), laboratory.Small.People.LaboratoryManager.Actor);
        var product = small.Calcite.ProductId;
        (await scoring.OfAsync(author, product, [Passing], default)).Results.ShouldBe(0);

        // 98.0 and 97.4 % pass 45 µm.
        var good = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var near = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite with { RetainedPercent = new Dictionary<decimal, decimal> { [20m] = 60m, [32m] = 25m, [45m] = 2.6m, [63m] = 0.2m } });
        var bad = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.ConcludeAsync(bad.Id, InvestigationConclusion.Confirmed);
        var waiting = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);

        var asNow = await scoring.OfAsync(author, product, [Passing], default);
        (asNow.Results, asNow.Conform, asNow.DoNotConform, asNow.Undecided).ShouldBe((2, 2, 0, 0), "what is not accepted does not count");
        await small.Desk.AcceptAsync(bad.RunId);
        var tighter = await scoring.OfAsync(author, product, [Passing with { Lower = 97.5m }, new LimitDraft(LimitCharacteristic.Percentile, 10m, 40m, 1, Percent: 50m)], default);
        (tighter.Results, tighter.Conform, tighter.DoNotConform).ShouldBe((3, 1, 2));
        tighter.Failed.Select(one => (one.LotId, one.State)).ShouldBe([(bad.Id, LotState.OnHold), (near.Id, LotState.Released)], "the newest first");
        tighter.Failed[0].Missed.ShouldBe(["Passing 45 µm"]);
        tighter.Limits.Select(limit => (limit.Conform, limit.DoNotConform, limit.OverRuns)).ShouldBe([(1, 2, null), (3, 0, null)]);
        tighter.Limits[0].Expanded!.Value.ShouldBeGreaterThan(0);
        tighter.Limits[0].Capability!.Actual!.Value.ShouldBeLessThan(1);
        (await scoring.OfAsync(author, product, [Passing with { Lower = 80m }], default)).DoNotConform.ShouldBe(0);
        tighter.Limits.Select(limit => limit.BeyondAlert).ShouldBe([null, null], "they have no alert limits");
        var alerting = await scoring.OfAsync(author, product, [Passing with { LowerAlert = 97.5m }, new LimitDraft(LimitCharacteristic.RosinRammlerSlope, 0.1m, 20m, 2) { UpperAlert = 0.2m }], default);
        alerting.Limits.Select(limit => limit.BeyondAlert).ShouldBe([1, 3], "97.4 % conforms and lies beyond; what does not conform is no mere alert");
        _ = (good, waiting);
    }

    [Theory]
    [EachDatabase]
    public async Task The_verdicts_are_those_of_the_evaluation_itself(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, scoring, author) = (laboratory.Small, laboratory.Small.Get<DraftScoring>(), laboratory.Small.People.LaboratoryManager.Actor);
        var product = small.Calcite.ProductId;
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var view = await small.Bench().ViewAsync(lot.RunId);
        var median = view.Stored!.Result.Percentiles.First(one => one.Percent == 50m).Micrometres;
        foreach (var (limit, conform) in ((LimitDraft, bool)[])
        [
            (Passing with { Lower = 98.0m }, true), (Passing with { Lower = 98.1m }, false), (new LimitDraft(LimitCharacteristic.Retained, null, 2.0m, 1, Aperture.FromMicrometres(45m)), true),
            (new LimitDraft(LimitCharacteristic.Percentile, null, (decimal)median + 0.001m, 1, Percent: 50m), true), (new LimitDraft(LimitCharacteristic.Percentile, null, (decimal)median - 0.001m, 1, Percent: 50m), false),
            (new LimitDraft(LimitCharacteristic.RosinRammlerSlope, 0.1m, 20m, 2), true), (new LimitDraft(LimitCharacteristic.RosinRammlerSlope, 19m, 20m, 2), false),
        ])
        {
            var score = (await scoring.OfAsync(author, product, [limit], default)).Limits.Single();
            (score.Conform, score.DoNotConform).ShouldBe(conform ? (1, 0) : (0, 1), limit.ToString());
        }
    }

    [Theory]
    [EachDatabase]
    public async Task Bounds_nearer_than_twice_the_uncertainty_are_named(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, scoring, author) = (laboratory.Small, laboratory.Small.Get<DraftScoring>(), laboratory.Small.People.LaboratoryManager.Actor);
        await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var score = await scoring.OfAsync(author, small.Calcite.ProductId, [new LimitDraft(LimitCharacteristic.Percentile, 23m, 23.1m, 1, Percent: 50m), new LimitDraft(LimitCharacteristic.Percentile, 10m, 40m, 1, Percent: 50m)], default);
        score.Limits[0].Narrow!.ShouldStartWith("D50, 23.0 to 23.1 µm: narrower than twice the expanded uncertainty, ± ");
        score.Limits[1].Narrow.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task An_evaluation_from_before_its_curve_was_kept_counts_too(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await using var data = laboratory.Data();
        var kept = await data.Evaluations.AsNoTracking().SingleAsync();
        StoredCurve.Points(kept.Curve).ShouldBe(4);
        StoredCurve.Write(OpenedEvaluation.Of(kept).Result.Curve).ShouldBe(kept.Curve, "what is computed again for an old one is what is kept for a new one");
    }

    [Theory]
    [EachDatabase]
    public async Task A_draft_that_contradicts_itself_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (scoring, author) = (laboratory.Small.Get<DraftScoring>(), laboratory.Small.People.LaboratoryManager.Actor);
        await laboratory.ShouldRefuseAsync("limit", () => scoring.OfAsync(author, laboratory.Small.Calcite.ProductId, [Passing with { Lower = null }], default));
        await laboratory.ShouldRefuseAsync("not-found", () => scoring.OfAsync(author, Guid.CreateVersion7(), [Passing], default));
    }
}

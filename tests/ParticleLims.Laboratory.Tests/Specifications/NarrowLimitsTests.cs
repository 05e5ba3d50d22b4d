using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Specifications;

/// <summary>Limits that the laboratory's own measurements can hardly tell apart are told to whoever approves them.</summary>
public sealed class NarrowLimitsTests
{
    [Theory]
    [EachDatabase]
    public async Task Bounds_nearer_than_twice_the_uncertainty_of_the_last_runs_are_told_with_the_draft(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await AcceptedRunAsync(small);
        var median = new LimitDraft(LimitCharacteristic.Percentile, 24.9m, 25.1m, 1, Percent: 50m);
        await small.Get<SpecificationKeeping>().ReviseAsync(
            small.People.LaboratoryManager.Actor, small.Calcite.SpecificationId, new SpecificationDraft([median, median with { Lower = 10m, Upper = 50m }, median with { Lower = null }], "Tighter"), null, default);

        var narrow = (await small.Get<NarrowLimits>().OfAsync(small.People.QualityManager.Actor, small.Calcite.SpecificationId, default)).ShouldHaveSingleItem();
        (narrow.Limit.Position, narrow.Runs).ShouldBe((1, 1));
        narrow.Warning.ShouldStartWith("D50, 24.9 to 25.1 µm: narrower than twice the expanded uncertainty, which was ± ");
        narrow.Expanded.ShouldBeGreaterThan(0.1);
    }

    [Theory]
    [EachDatabase]
    public async Task Without_an_accepted_run_nothing_can_be_told(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var draft = new SpecificationDraft([new LimitDraft(LimitCharacteristic.Percentile, 24.9m, 25.1m, 1, Percent: 50m)], "Tighter");
        await small.Get<SpecificationKeeping>().ReviseAsync(small.People.LaboratoryManager.Actor, small.Calcite.SpecificationId, draft, null, default);
        (await small.Get<NarrowLimits>().OfAsync(small.People.QualityManager.Actor, small.Calcite.SpecificationId, default)).ShouldBeEmpty();
    }

    /// <summary>A run's request carries what its uncertainty starts from: the balance, and each sieve's permissible deviation as a rectangle.</summary>
    [Theory]
    [EachDatabase]
    public async Task A_submitted_run_is_evaluated_with_its_uncertainty(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await AcceptedRunAsync(laboratory.Small);
        await using var data = laboratory.Data();
        var stored = await data.Evaluations.AsNoTracking().SingleAsync();
        var request = EvaluationJson.Read(stored.Input);
        request.Uncertainty.ShouldNotBeNull().BalanceRepeatability.ShouldBeGreaterThan(Mass.Zero);

        // Y(45 µm) = 45^0.98/27 + 1.6 = 3.144 µm (ISO 3310-1:1990/2000, from memory), over the root of three.
        request.Cuts.Single(cut => cut.Aperture == Aperture.FromMicrometres(45m)).ApertureStandardUncertainty.ShouldBe(Aperture.FromNanometres(1_815));
        OpenedEvaluation.Of(stored).SameBits.ShouldBeTrue();
        OpenedEvaluation.Of(stored).Result.Verdicts.ShouldAllBe(verdict => verdict.ExpandedUncertainty > 0);
    }

    private static async Task AcceptedRunAsync(SmallLaboratory small)
    {
        var lot = await small.BookInAsync(small.Calcite);
        await lot.SubmitAsync(Powder.Calcite);
        await lot.AcceptAsync();
    }
}

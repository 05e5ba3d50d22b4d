using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>What makes one result is fixed in the specification beforehand: how many determinations, how combined, how far apart. Never fewer than the method asks for.</summary>
public sealed class DeterminationTests
{
    [Theory]
    [EachDatabase]
    public async Task A_specification_demands_more_determinations_than_the_method_never_fewer(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        (await small.BookInAsync(await small.WithSpecificationAsync(small.Calcite, draft => draft with { Determinations = 3 }))).Sample.RunIds.Count.ShouldBe(3);
        (await small.BookInAsync(await small.WithSpecificationAsync(small.Starch, draft => draft with { Determinations = 1 }))).Sample.RunIds.Count.ShouldBe(2, "the method asks for two");
    }

    [Theory]
    [EachDatabase]
    public async Task The_mean_is_no_result_before_the_last_determination_and_shows_each_value_then(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(await small.WithSpecificationAsync(small.Spice, draft => draft with { Determinations = 2 }));
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[0], lot.Method, Powder.SpiceCoarser(5.4m));
        (await small.Desk.EvidenceAsync(lot.Id)).Results.Single().Limits.ShouldBeEmpty();
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[1], lot.Method, Powder.SpiceCoarser(3.0m));
        var judged = (await small.Desk.EvidenceAsync(lot.Id)).Results.Single().Limits.Single();
        (judged.Printed, judged.Verdict.Verdict).ShouldBe(("4.2", Verdict.Conforms));
        judged.Determinations.Select(one => (one.Printed, one.IsOut)).ShouldBe([("5.4", true), ("3.0", false)], "an average hides none of them");
    }

    [Theory]
    [EachDatabase]
    public async Task A_determination_that_does_not_conform_is_not_averaged_away_where_each_must(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(await small.WithSpecificationAsync(small.Spice, draft => draft with { Determinations = 2, Combination = Combination.MeanAndEach }))).SubmitAllAsync(5.4m, 3.0m);
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.OnHold);
        var open = evidence.Investigations.ShouldHaveSingleItem();
        open.Kind.ShouldBe(InvestigationKind.OutOfSpecification);
        open.What.ShouldContain("with 5.4 % does not conform, and the specification asks that each determination does");
        evidence.Results.Single().Limits.Single().Verdict.Verdict.ShouldBe(Verdict.DoesNotConform);
    }

    [Theory]
    [EachDatabase]
    public async Task Determinations_further_apart_than_allowed_give_no_result_and_are_investigated(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var method = await small.WithSpecificationAsync(small.Spice, draft => draft with { Determinations = 2, Limits = [draft.Limits[0] with { GreatestSpread = 1m }] });
        var near = await (await small.BookInAsync(method)).SubmitAllAsync(2.0m, 3.0m);
        (await small.Desk.InvestigationsAsync(near.Id)).ShouldBeEmpty("as far apart as allowed is not too far");
        var apart = await (await small.BookInAsync(method)).SubmitAllAsync(2.0m, 3.1m);
        var evidence = await small.Desk.EvidenceAsync(apart.Id);
        evidence.Lot.State.ShouldBe(LotState.OnHold);
        var open = evidence.Investigations.ShouldHaveSingleItem();
        open.Kind.ShouldBe(InvestigationKind.DeterminationsApart, "no value is out: there is none");
        open.What.ShouldContain("the determinations lie further apart than is allowed, 1.0 % by the specification or less by the method");
        var judged = evidence.Results.Single().Limits.Single();
        (judged.IsApart, judged.Verdict.Verdict).ShouldBe((true, Verdict.Undecided));
        evidence.ReleaseBlockers.ShouldContain(words => words.Contains("their mean is no result", StringComparison.Ordinal));
    }

    [Theory]
    [EachDatabase]
    public async Task The_narrower_of_method_and_specification_counts(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;

        // The starch's method allows 2 percentage points.
        var wider = await small.WithSpecificationAsync(small.Starch, draft => draft with { Limits = [draft.Limits[0] with { GreatestSpread = 5m }] });
        var lot = await small.BookInAsync(wider);
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[0], lot.Method, Powder.Starch with { RetainedPercent = new Dictionary<decimal, decimal> { [32m] = 30m, [63m] = 1m } });
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[1], lot.Method, Powder.Starch with { RetainedPercent = new Dictionary<decimal, decimal> { [32m] = 30m, [63m] = 3.5m } });
        (await small.Desk.EvidenceAsync(lot.Id)).Results.Single().Limits.Single().IsApart.ShouldBeTrue();
    }
}

/// <summary>Submits a spice's determinations, each with its own value.</summary>
internal static class Submitting
{
    public static async Task<TestLot> SubmitAllAsync(this TestLot lot, params decimal[] percentAbove500)
    {
        foreach (var (run, percent) in lot.Sample.RunIds.Zip(percentAbove500))
        {
            await lot.Laboratory.Bench().CarryOutAsync(run, lot.Method, Powder.SpiceCoarser(percent));
        }

        return lot;
    }
}

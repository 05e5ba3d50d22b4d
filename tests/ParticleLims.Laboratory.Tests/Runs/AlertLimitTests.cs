using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>The spice may keep 5 % on 500 µm; beyond 4.5 % it conforms and is looked into.</summary>
public sealed class AlertLimitTests
{
    [Theory]
    [EachDatabase]
    public async Task A_value_beyond_its_alert_limit_conforms_and_opens_the_lighter_case_in_the_same_event(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Spice);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        await small.Bench().FinishAsync(lot.RunId, Powder.SpiceCoarser(4.7m));
        var events = await laboratory.EventsAsync();
        await small.Bench().SubmitAsync(lot.RunId);

        (await laboratory.EventsAsync()).ShouldBe(events + 1);
        (await laboratory.LastEventAsync()).Changes.ShouldContain("\"thing\":\"Investigation\"");
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.AwaitingResults, "it holds nothing");
        var judged = evidence.Results.Single().Limits.Single();
        (judged.IsOut, judged.Alert).ShouldBe((false, "above the alert limit of 4.5 %"));
        var open = evidence.Investigations.ShouldHaveSingleItem();
        (open.Kind, open.What).ShouldBe((InvestigationKind.OutOfTrend, "Alert limit: Retained on 500 µm is 4.7 % and lies above the alert limit of 4.5 %, within its limits (at most 5.0 %)"));

        await lot.AcceptAsync();
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id))).Message.ShouldContain("a value out of trend is not explained yet");
        await small.Get<InvestigationWork>().ExplainAsync(small.People.Reviewer.Actor, open.Id, "The mill's screen was new that day", open.Version, default);
        await small.Desk.ReleaseAsync(lot.Id);
        var certificate = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        await using var data = laboratory.Data();
        (await data.Certificates.SingleAsync(one => one.Id == certificate)).Content.ShouldNotContain("alert", Case.Insensitive, "alert limits are the laboratory's own");
    }

    [Theory]
    [EachDatabase]
    public async Task A_value_on_the_alert_limit_is_within_it_and_one_out_of_specification_is_no_mere_alert(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var on = await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(4.5m));
        (await small.Desk.InvestigationsAsync(on.Id)).ShouldBeEmpty();
        var beyond = await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(5.2m));
        (await small.Desk.InvestigationsAsync(beyond.Id)).ShouldHaveSingleItem().Kind.ShouldBe(InvestigationKind.OutOfSpecification);
        (await small.Desk.EvidenceAsync(beyond.Id)).Results.Single().Limits.Single().Alert.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_version_keeps_its_alert_limits_and_says_in_words_what_the_next_one_changes(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var old = await small.BookInAsync(small.Spice);
        await small.WithSpecificationAsync(small.Spice, draft => draft with
        {
            Limits = [draft.Limits[0] with { UpperAlert = 3m, GreatestSpread = 0.8m }], Determinations = 2, Combination = Combination.MeanAndEach,
            Sampling = new SamplingPlan { Increments = 8, Procedure = "Thief from eight bags", LeastMass = Analysis.Quantities.Mass.FromGrams(250m), ToRecord = "the numbers of the bags" },
        });
        await old.SubmitAsync(Powder.SpiceCoarser(4m));
        (await small.Desk.InvestigationsAsync(old.Id)).ShouldBeEmpty("the version that was in force when it was booked in counts");
        var versions = (await small.Get<SpecificationKeeping>().AllAsync(small.People.Reviewer.Actor, default)).Single(page => page.Specification.Id == small.Spice.SpecificationId).Versions;
        Documents(versions[1], versions[0]).ShouldBe(
        [
            "Retained on 500 µm: at most 5.0 %; 1 decimal; printed; alert above 4.5 % became at most 5.0 %; 1 decimal; printed; alert above 3.0 %; determinations differ by at most 0.8 %.",
            "Determinations for one result: new, 2, or more where the method asks for more.",
            "Determinations combined: new, their mean is judged, and each must conform.",
            "Increments of the sample: new, 8.",
            "Sampling procedure: new, Thief from eight bags.",
            "Least mass of the sample: new, 250 g.",
            "Written down on arrival: new, the numbers of the bags.",
        ]);
    }

    private static IReadOnlyList<string> Documents(SpecificationVersion before, SpecificationVersion after) =>
        [.. ParticleLims.Laboratory.Documents.VersionComparison.Between(SpecificationFacts.Of(before), SpecificationFacts.Of(after)).Select(change => change.Words)];
}

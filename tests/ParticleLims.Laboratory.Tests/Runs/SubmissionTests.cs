using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

public sealed class SubmissionTests
{
    [Theory]
    [EachDatabase]
    public async Task The_stored_evaluation_keeps_its_inputs_and_gives_the_same_bits_again(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).SubmitAsync(Powder.Calcite);
        await using var data = laboratory.Data();
        var stored = await data.Evaluations.AsNoTracking().SingleAsync(evaluation => evaluation.RunId == lot.RunId);
        stored.EngineVersion.ShouldBe(Analysis.Engine.Version);
        stored.ResultHash.ShouldBe(RecordChain.HashOf(stored.Result));
        var opened = OpenedEvaluation.Of(stored);
        opened.SameBits.ShouldBeTrue();
        opened.Result.Cuts.Select(cut => cut.PassingPercent.ToDouble()).ShouldBe([40.0, 75.0, 98.0, 99.8], 1e-12);
    }

    /// <summary>What the first version of the engine stored is read as that version answered it, and a version that nobody can repeat is not vouched for.</summary>
    [Theory]
    [EachDatabase]
    public async Task An_evaluation_of_an_older_engine_is_computed_again_as_that_engine(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).SubmitAsync(Powder.Calcite);
        await using var data = laboratory.Data();
        var stored = await data.Evaluations.AsNoTracking().SingleAsync(evaluation => evaluation.RunId == lot.RunId);
        var asked = EvaluationJson.Read(stored.Input) with { Uncertainty = null };
        var old = Analysis.Engine.Evaluate(asked, "1.0.0").ShouldBeOfType<Analysis.Evaluated>().Result.ToCanonicalText();
        old.ShouldNotBe(stored.Result);

        var opened = OpenedEvaluation.Of(Written("1.0.0", old));
        opened.SameBits.ShouldBeTrue();
        opened.Result.Engine.ShouldBe("1.0.0");
        opened.Result.Summary.ShouldBeNull();
        OpenedEvaluation.Of(Written("1.0.0", stored.Result)).SameBits.ShouldBeFalse();
        OpenedEvaluation.Of(Written("0.9.0", old)).SameBits.ShouldBeFalse();

        Evaluation Written(string version, string text) =>
            new() { EngineVersion = version, Input = EvaluationJson.Write(asked), Result = text, ResultHash = RecordChain.HashOf(text), RunId = stored.RunId, At = stored.At };
    }

    [Theory]
    [EachDatabase]
    public async Task A_value_out_of_specification_holds_the_lot_and_opens_an_investigation_in_the_same_event(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.FinishAsync(lot.RunId, Powder.CoarseCalcite);
        var events = await laboratory.EventsAsync();
        await bench.SubmitAsync(lot.RunId);

        (await laboratory.EventsAsync()).ShouldBe(events + 1);
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.OnHold);
        var investigation = evidence.Investigations.ShouldHaveSingleItem();
        investigation.State.ShouldBe(InvestigationState.LaboratoryPhase);
        investigation.RunId.ShouldBe(lot.RunId);
        investigation.What.ShouldBe("Passing 45 µm is 92.0 % (at least 97)");
        var changes = (await laboratory.LastEventAsync()).Changes;
        changes.ShouldContain("\"thing\":\"Investigation\"");
        changes.ShouldContain("\"State\":[\"AwaitingResults\",\"OnHold\"]");
    }

    [Theory]
    [EachDatabase]
    public async Task A_value_out_of_specification_does_not_go_away_with_the_run_that_is_abandoned(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk, bench) = (laboratory.Small, laboratory.Small.Desk, laboratory.Small.Bench());
        var lot = await small.BookInAsync(small.Calcite);
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.FinishAsync(lot.RunId, Powder.CoarseCalcite);
        var events = await laboratory.EventsAsync();
        await desk.AbandonAsync(lot.RunId);

        (await laboratory.EventsAsync()).ShouldBe(events + 1);
        var evidence = await desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.OnHold);
        var investigation = evidence.Investigations.ShouldHaveSingleItem();
        (investigation.RunId, investigation.Kind).ShouldBe((lot.RunId, InvestigationKind.OutOfSpecification));
        investigation.What.ShouldStartWith("Passing 45 µm is 92.0 % (at least 97); run ");
        investigation.What.ShouldEndWith("was abandoned after that: The test portion was spilled");

        // What is planned in its place cannot test the value away.
        var instead = evidence.AllRuns.Single(run => run.ReplacesRunId == lot.RunId).Id;
        await laboratory.ShouldRefuseAsync("given-up-unexplained", () => bench.StartAsync(instead, lot.Method));
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        await laboratory.ShouldRefuseAsync("given-up-unexplained", () => bench.StartAsync(instead, lot.Method));
        await laboratory.ShouldRefuseAsync("blocked", () => desk.ReleaseAsync(lot.Id));
        await desk.RejectAsync(lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_cause_in_the_laboratory_for_an_abandoned_run_lets_the_next_one_begin(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk, bench) = (laboratory.Small, laboratory.Small.Desk, laboratory.Small.Bench());
        var lot = await small.BookInAsync(small.Calcite);
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.FinishAsync(lot.RunId, Powder.CoarseCalcite);
        await desk.AbandonAsync(lot.RunId);
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.LaboratoryCause);
        var instead = (await desk.EvidenceAsync(lot.Id)).AllRuns.Single(run => run.ReplacesRunId == lot.RunId).Id;
        await bench.CarryOutAsync(instead, lot.Method, Powder.Calcite);
        await desk.AcceptAsync(instead);
        await desk.ReleaseAsync(lot.Id);
        (await desk.EvidenceAsync(lot.Id)).AllRuns.Count.ShouldBe(2);
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_that_is_abandoned_before_it_shows_anything_out_opens_nothing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk, bench) = (laboratory.Small, laboratory.Small.Desk, laboratory.Small.Bench());
        var lot = await small.BookInAsync(small.Calcite);
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.StepAsync(lot.RunId, Powder.CoarseCalcite);
        await desk.AbandonAsync(lot.RunId);
        var evidence = await desk.EvidenceAsync(lot.Id);
        (evidence.Lot.State, evidence.Investigations.Count).ShouldBe((LotState.AwaitingResults, 0));
        var instead = evidence.AllRuns.Single(run => run.ReplacesRunId == lot.RunId).Id;
        await bench.StartAsync(instead, lot.Method);
        await bench.FinishAsync(instead, Powder.Calcite);
        await desk.AbandonAsync(instead);
        (await desk.EvidenceAsync(lot.Id)).Investigations.ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task Replicates_are_judged_together_when_the_last_one_is_in(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Starch);
        var coarse = Powder.Starch with { RetainedPercent = new Dictionary<decimal, decimal> { [32m] = 35m, [63m] = 6m } };
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[0], lot.Method, coarse);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.AwaitingResults, "one replicate is no result yet");
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[1], lot.Method, coarse);
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.OnHold);
        evidence.Results.ShouldHaveSingleItem().Limits.ShouldHaveSingleItem().Printed.ShouldBe("94.0");
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_is_submitted_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.FinishAsync(lot.RunId, Powder.Calcite);
        var submission = small.Get<RunSubmission>();
        await submission.SubmitAsync(small.People.Technician.Actor, lot.RunId, "once", default);
        var events = await laboratory.EventsAsync();
        await submission.SubmitAsync(small.People.Technician.Actor, lot.RunId, "once", default);
        (await laboratory.EventsAsync()).ShouldBe(events);
        await laboratory.ShouldRefuseAsync("run-state", () => submission.SubmitAsync(small.People.Technician.Actor, lot.RunId, "twice", default));
    }

    [Theory]
    [EachDatabase]
    public async Task No_run_of_a_decided_lot_is_started(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Desk.RejectAsync(lot.Id, "Wet when it came");
        await laboratory.ShouldRefuseAsync("lot-closed", () => small.Bench().StartAsync(lot.RunId, lot.Method));
    }
}

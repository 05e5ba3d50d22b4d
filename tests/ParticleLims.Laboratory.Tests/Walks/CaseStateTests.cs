using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Hypotheses of an investigation and cases of failed equipment, by role and by state.</summary>
public sealed class CaseStateTests
{
    private const string Why = "As the notes of the day say";
    private const Who Investigators = Who.Reviewer | Who.QualityManager | Who.LaboratoryManager;

    private static readonly StateDeed<HypothesisState>[] OfHypotheses =
    [
        OfHypothesis("approve", Who.QualityManager, [HypothesisState.Proposed], async (stage, who, id, proof) => await stage.Get<HypothesisWork>().ApproveAsync(who, id, proof, await HypothesisVersionAsync(stage, id), default)),
        OfHypothesis("measure", Investigators, [HypothesisState.Approved], (stage, who, id, _) => stage.Get<HypothesisWork>().MeasureAsync(who, id, "Passing 45 µm, second half", 96.1m, "%", null, default)),
        OfHypothesis("judge", Investigators, [HypothesisState.Approved], async (stage, who, id, _) =>
            await stage.Get<HypothesisWork>().JudgeAsync(who, id, HypothesisOutcome.NothingTold, Why, await HypothesisVersionAsync(stage, id), default)),
        OfHypothesis("withdraw", Investigators, [HypothesisState.Proposed, HypothesisState.Approved], async (stage, who, id, _) =>
            await stage.Get<HypothesisWork>().WithdrawAsync(who, id, Why, await HypothesisVersionAsync(stage, id), default)),
    ];

    private static readonly StateDeed<FailureState>[] OfFailures =
    [
        new("decide on its lot", Who.QualityManager, [FailureState.LotOpen, FailureState.LotDecided], DecideAsync) { Otherwise = _ => "failure-closed" },
        new("close", Who.QualityManager, [FailureState.LotDecided], CloseAsync) { Otherwise = state => state == FailureState.LotOpen ? "lot-open" : "failure-closed" },
    ];

    private enum FailureState
    {
        LotOpen,
        LotDecided,
        Closed,
    }

    [Theory]
    [EachDatabase]
    public async Task A_hypothesis_is_approved_measured_and_judged_in_this_order_and_only_by_those_who_may(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        var investigation = await InvestigatedAsync(stage);
        await StateTrial.GoAsync(stage, OfHypotheses, state => HypothesisAsync(stage, investigation.Id, state));
    }

    [Theory]
    [EachDatabase]
    public async Task Nothing_is_done_with_a_hypothesis_of_a_concluded_case(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        var investigation = await InvestigatedAsync(stage);
        var left = await HypothesisAsync(stage, investigation.Id, HypothesisState.Withdrawn);
        await stage.Desk.AnswerAsync(investigation.LotId, causeFound: true);
        await stage.Desk.ConcludeAsync(investigation.LotId, InvestigationConclusion.LaboratoryCause);
        var before = await stage.SumAsync();
        foreach (var deed in OfHypotheses)
        {
            var who = deed.May.HasFlag(Who.QualityManager) ? Who.QualityManager : Who.Reviewer;
            (await Should.ThrowAsync<RefusedException>(() => deed.Act(stage, stage.ActorOf(who), left, new SecretProof(Guid.Empty)))).Code.ShouldBe("investigation-closed", deed.Name);
        }

        (await stage.SumAsync()).ShouldBe(before);
    }

    [Theory]
    [EachDatabase]
    public async Task A_case_of_failed_equipment_is_decided_and_closed_only_by_the_quality_manager(DatabaseKind kind)
    {
        await using var stage = await Stage.OpenAsync(kind);
        var lot = await stage.Small.BookInAsync(stage.Small.Calcite);
        await stage.Bench.StartAsync(lot.RunId, stage.Small.Calcite);
        await StateTrial.GoAsync(stage, OfFailures, state => FailureAsync(stage, state));
    }

    private static async Task<Investigation> InvestigatedAsync(Stage stage)
    {
        var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        return (await stage.Desk.InvestigationsAsync(lot.Id)).Single();
    }

    private static async Task<Guid> HypothesisAsync(Stage stage, Guid investigation, HypothesisState state)
    {
        // Proposed by somebody who does not approve it.
        var work = stage.Get<HypothesisWork>();
        var id = await work.ProposeAsync(stage.People.Reviewer.Actor, investigation, "The sieve is blinded", "The second half on another sieve", "Supported at 97 % or more", null, default);
        if (state is HypothesisState.Approved or HypothesisState.Judged)
        {
            await work.ApproveAsync(stage.People.QualityManager.Actor, id, await stage.Small.ProofAsync(stage.People.QualityManager), 1, default);
            await work.MeasureAsync(stage.People.Reviewer.Actor, id, "Passing 45 µm, second half", 96.1m, "%", null, default);
        }

        if (state == HypothesisState.Judged)
        {
            await work.JudgeAsync(stage.People.Reviewer.Actor, id, HypothesisOutcome.NothingTold, Why, 3, default);
        }

        if (state == HypothesisState.Withdrawn)
        {
            await work.WithdrawAsync(stage.People.Reviewer.Actor, id, Why, 1, default);
        }

        return id;
    }

    private static async Task<Guid> FailureAsync(Stage stage, FailureState state)
    {
        var sieve = stage.Small.Calcite.SieveIds[0];
        long version;
        await using (var data = stage.Data())
        {
            version = (await data.FindAsync<TestSieve>(sieve))!.Version;
        }

        var id = await stage.Get<EquipmentFailing>().MarkAsync<TestSieve>(stage.People.LaboratoryManager.Actor, sieve, Why, RunningLaboratory.FirstMorning, version, null, default);
        var quality = stage.People.QualityManager;
        if (state != FailureState.LotOpen)
        {
            await DecideAsync(stage, quality.Actor, id, new SecretProof(Guid.Empty));
        }

        if (state == FailureState.Closed)
        {
            await CloseAsync(stage, quality.Actor, id, await stage.Small.ProofAsync(quality));
        }

        return id;
    }

    private static async Task DecideAsync(Stage stage, Actor who, Guid id, SecretProof proof)
    {
        var failure = await FindFailureAsync(stage, id);
        await stage.Get<EquipmentFailing>().DecideAsync(who, id, failure.Lots.Single().LotId, TouchedLotDecision.ResultsStand, Why, failure.Version, default);
    }

    private static async Task CloseAsync(Stage stage, Actor who, Guid id, SecretProof proof) =>
        await stage.Get<EquipmentFailing>().CloseAsync(who, id, Why, proof, (await FindFailureAsync(stage, id)).Version, default);

    private static async Task<EquipmentFailure> FindFailureAsync(Stage stage, Guid id)
    {
        await using var data = stage.Data();
        return await data.EquipmentFailures.AsNoTracking().Include(one => one.Lots).SingleAsync(one => one.Id == id);
    }

    private static StateDeed<HypothesisState> OfHypothesis(string name, Who may, HypothesisState[] states, Func<Stage, Actor, Guid, SecretProof, Task> act) => new(name, may, states, act) { Otherwise = _ => "hypothesis-state" };

    private static async Task<long> HypothesisVersionAsync(Stage stage, Guid id)
    {
        await using var data = stage.Data();
        return (await data.FindAsync<Hypothesis>(id))!.Version;
    }
}

using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>Two tabs, two terminals, a send that is repeated: whatever comes at the same moment, a run goes one step.</summary>
public sealed class AtTheSameMomentTests
{
    private const int Times = 6;
    private static readonly RunStep First = RunStep.Weigh(WeighingKind.Empty, 1);

    [Theory]
    [EachDatabase]
    public async Task A_weighing_sent_many_times_at_once_is_one_weighing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, run) = await StartedAsync(laboratory);
        var before = await laboratory.EventsAsync();
        var taken = await Task.WhenAll(Enumerable.Range(0, Times).Select(_ => Task.Run(() => small.Bench().WeighAsync(run, First, 260m, "once"))));
        taken.Distinct().ShouldHaveSingleItem();
        (await laboratory.EventsAsync()).ShouldBe(before + 1);
        (await small.Bench().ViewAsync(run)).Run.Weighings.ShouldHaveSingleItem().Id.ShouldBe(taken[0].Id);
    }

    [Theory]
    [EachDatabase]
    public async Task Of_many_tabs_that_weigh_at_once_one_is_taken_and_the_others_are_told_by_whom(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, run) = await StartedAsync(laboratory);
        var refusals = await Task.WhenAll(Enumerable.Range(0, Times).Select(tab => Task.Run(() => RefusalOfAsync(() => small.Bench().WeighAsync(run, First, 260m + (tab / 1000m))))));
        refusals.Count(refusal => refusal is null).ShouldBe(1);
        refusals.OfType<RefusedException>().ShouldAllBe(refusal => refusal.Code == "step-done" && refusal.Message.Contains("Tom Reed", StringComparison.Ordinal));
        (await small.Bench().ViewAsync(run)).Run.Weighings.ShouldHaveSingleItem();
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_sieve_goes_into_one_of_the_runs_that_are_started_at_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lots = new List<TestLot>();
        for (var lot = 0; lot < 4; lot++)
        {
            lots.Add(await small.BookInAsync(small.Calcite));
        }

        var refusals = await Task.WhenAll(lots.Select(lot => Task.Run(() => RefusalOfAsync(() => small.Bench().StartAsync(lot.RunId, lot.Method)))));
        refusals.Count(refusal => refusal is null).ShouldBe(1);
        refusals.OfType<RefusedException>().ShouldAllBe(refusal => refusal.Code == "sieve-in-use");
    }

    [Theory]
    [EachDatabase]
    public async Task A_mistaken_weighing_is_superseded_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, run) = await StartedAsync(laboratory);
        var mistaken = await small.Bench().WeighAsync(run, First, 260m);
        var refusals = await Task.WhenAll(Enumerable.Range(0, Times).Select(tab => Task.Run(() => RefusalOfAsync(() => small.Get<RunWeighing>().TakeAgainAsync(
            small.People.Technician.Actor, run, mistaken.Id, small.Bench().Reading(260.1m), "Dust on the frame", FormattableString.Invariant($"tab-{tab}"), default)))));
        refusals.Count(refusal => refusal is null).ShouldBe(1);
        refusals.OfType<RefusedException>().ShouldAllBe(refusal => refusal.Code == "weighing-superseded");
    }

    private static async Task<(SmallLaboratory Small, Guid Run)> StartedAsync(OpenedSmallLaboratory laboratory)
    {
        var lot = await laboratory.Small.BookInAsync(laboratory.Small.Calcite);
        await laboratory.Small.Bench().StartAsync(lot.RunId, lot.Method);
        return (laboratory.Small, lot.RunId);
    }

    private static async Task<RefusedException?> RefusalOfAsync(Func<Task> act)
    {
        try
        {
            await act();
            return null;
        }
        catch (RefusedException refusal)
        {
            return refusal;
        }
    }
}

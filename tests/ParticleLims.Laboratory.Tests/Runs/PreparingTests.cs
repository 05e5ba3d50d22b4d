using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>What comes before the first sieve is done in order, for its time, and stands in the record.</summary>
public sealed class PreparingTests
{
    private static readonly PreparationPlan Plan = new()
    {
        ConditionsRead = true, TemperatureLowest = Temperature.FromCelsius(18m), TemperatureHighest = Temperature.FromCelsius(25m), HumidityHighestPercent = 60m,
        DryingTemperature = Temperature.FromCelsius(105m), DryingMinutes = 120, ConditioningMinutes = 30, FlowAid = "precipitated silica", FlowAidPercent = 0.5m,
    };

    [Theory]
    [EachDatabase]
    public async Task The_room_is_read_the_powder_dried_conditioned_and_mixed_before_the_first_sieve_and_the_collector_weighed_before_and_after(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (run, bench) = await StartAsync(laboratory.Small, draft => draft with { Preparation = Plan, CollectorWeighed = true });
        var seen = new List<string>();
        while ((await bench.ViewAsync(run)).Next is { } step)
        {
            seen.Add(step.Preparation?.ToString() ?? step.Weighing?.ToString() ?? "Sieve");
            await bench.StepAsync(run, Powder.Calcite);
        }

        seen[..6].ShouldBe(["RoomConditions", "Drying", "Conditioning", "FlowAid", "CollectorEmpty", "Empty"]);
        seen[^1].ShouldBe("CollectorAfter");
        var view = await bench.ViewAsync(run);
        view.Run.Preparations.Select(one => (one.Kind, one.Minutes)).ShouldBe([(PreparationKind.RoomConditions, 0), (PreparationKind.Drying, 120), (PreparationKind.Conditioning, 30), (PreparationKind.FlowAid, 0)], ignoreOrder: true);
        view.SoFar.ShouldBeOfType<ParticleLims.Analysis.Evaluated>().Result.RecoveryPercent.ShouldNotBeNull().ToDouble().ShouldBe(100, 0.5);
        (await bench.SubmitAsync(run)).ShouldBeTrue();
    }

    [Theory]
    [EachDatabase]
    public async Task Powder_taken_from_the_oven_too_early_is_refused_with_the_minutes_that_are_left(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (run, bench) = await StartAsync(small, draft => draft with { Preparation = Plan with { ConditionsRead = false, TemperatureLowest = null, TemperatureHighest = null, HumidityHighestPercent = null } });
        var preparing = small.Get<RunPreparing>();
        var (first, second) = (small.People.Technician.Actor, small.People.SecondTechnician.At("T2"));
        await laboratory.ShouldRefuseAsync("temperature", () => preparing.BeginAsync(first, run, PreparationKind.Drying, null, "no-oven", default));
        await laboratory.ShouldRefuseAsync("step-order", () => preparing.BeginAsync(first, run, PreparationKind.Conditioning, null, "early", default));
        await preparing.BeginAsync(first, run, PreparationKind.Drying, Temperature.FromCelsius(104.5m), "begin", default);
        await laboratory.ShouldRefuseAsync("preparation-goes-on", () => preparing.BeginAsync(second, run, PreparationKind.Drying, Temperature.FromCelsius(105m), "again", default));
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(100.5));
        (await laboratory.ShouldRefuseAsync("preparation-too-short", () => preparing.EndAsync(first, run, PreparationKind.Drying, "end-1", default))).Message.ShouldStartWith("The method asks for 120 min of drying; that is over in 20 min.");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(19.5));
        (await preparing.EndAsync(second, run, PreparationKind.Drying, "end-2", default)).ShouldBe(120);
        var drying = (await bench.ViewAsync(run)).Run.Preparations.ShouldHaveSingleItem();
        (drying.PersonName, drying.EndedByName, drying.Temperature!.Value.Celsius).ShouldBe(("Tom Reed", "Nia Marsh", 104.5m));
        await laboratory.ShouldRefuseAsync("preparation-not-going-on", () => preparing.EndAsync(first, run, PreparationKind.Drying, "end-3", default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_room_outside_the_methods_band_is_a_finding_until_a_later_reading_lies_inside(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (run, bench) = await StartAsync(small, draft => draft with { Preparation = Plan with { DryingMinutes = null, DryingTemperature = null, ConditioningMinutes = null, FlowAid = null, FlowAidPercent = null } });
        var (preparing, actor) = (small.Get<RunPreparing>(), small.People.Technician.Actor);
        await laboratory.ShouldRefuseAsync("temperature", () => preparing.ReadConditionsAsync(actor, run, new RoomConditions(Temperature.FromCelsius(72m), 40m), "fahrenheit", default));
        await laboratory.ShouldRefuseAsync("humidity", () => preparing.ReadConditionsAsync(actor, run, new RoomConditions(Temperature.FromCelsius(22m), 140m), "too-humid", default));
        await preparing.ReadConditionsAsync(actor, run, new RoomConditions(Temperature.FromCelsius(26.5m), 71m), "one", default);
        (await bench.ViewAsync(run)).Findings.ShouldBe(["The room was at 26.5 °C; the method asks for 18 to 25 °C.", "The relative humidity was 71 %; the method asks for at most 60 %."]);
        (await bench.ViewAsync(run)).Next.ShouldBe(RunStep.Weigh(WeighingKind.Empty, 1), "the run may go on; the reviewer sees it");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(40));
        await preparing.ReadConditionsAsync(actor, run, new RoomConditions(Temperature.FromCelsius(24m), 55m), "two", default);
        var view = await bench.ViewAsync(run);
        view.Findings.ShouldBeEmpty();
        view.Run.Preparations.Count.ShouldBe(2, "both readings stay");
    }

    [Theory]
    [EachDatabase]
    public async Task A_method_without_preparations_takes_none(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (run, _) = await StartAsync(small, draft => draft);
        var (preparing, actor) = (small.Get<RunPreparing>(), small.People.Technician.Actor);
        await laboratory.ShouldRefuseAsync("step-order", () => preparing.ReadConditionsAsync(actor, run, new RoomConditions(Temperature.FromCelsius(22m), 40m), "one", default));
        await laboratory.ShouldRefuseAsync("step-order", () => preparing.MixFlowAidAsync(actor, run, "FA-1", "two", default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_method_that_contradicts_itself_cannot_be_written(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        PreparationPlan[] wrong =
        [
            Plan with { ConditionsRead = false }, Plan with { TemperatureLowest = Temperature.FromCelsius(30m) }, Plan with { DryingMinutes = null }, Plan with { DryingTemperature = Temperature.FromCelsius(900m) },
            Plan with { FlowAidPercent = null }, Plan with { FlowAidPercent = 50m }, Plan with { ConditioningMinutes = 0 }, Plan with { HumidityHighestPercent = 101m },
        ];
        foreach (var plan in wrong)
        {
            await laboratory.ShouldRefuseAsync("method", () => small.WithMethodAsync(small.Calcite, draft => draft with { Preparation = plan }));
        }

        await laboratory.ShouldRefuseAsync("method", () => small.WithMethodAsync(small.Spice, draft => draft with { CollectorWeighed = true }));
        await laboratory.ShouldRefuseAsync("method", () => small.WithMethodAsync(small.Calcite, draft => draft with { EndPoint = new EndPointPlan { IntervalSeconds = 60, MostIntervals = 3 } }));
    }

    private static async Task<(Guid Run, TestBench Bench)> StartAsync(SmallLaboratory small, Func<MethodDraft, MethodDraft> change)
    {
        var lot = await small.BookInAsync(await small.WithMethodAsync(small.Calcite, change));
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        return (lot.RunId, bench);
    }
}

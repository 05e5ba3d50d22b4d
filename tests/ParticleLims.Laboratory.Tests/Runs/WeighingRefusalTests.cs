using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>What the bench refuses, in words and with nothing written.</summary>
public sealed class WeighingRefusalTests
{
    private static readonly RunStep First = RunStep.Weigh(WeighingKind.Empty, 1);
    private static readonly RunStep Second = RunStep.Weigh(WeighingKind.Loaded, 1);

    [Theory]
    [EachDatabase]
    public async Task A_reading_must_be_stable_fresh_and_of_the_runs_balance(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, lot, bench) = await StartedAsync(laboratory);
        var good = bench.Reading(260.123m);
        await RefuseAsync("reading-unstable", bench.Reading(260.123m, stable: false));
        await RefuseAsync("other-balance", good with { BalanceId = Guid.CreateVersion7() });
        await RefuseAsync("reading-old", good with { At = good.At.AddSeconds(-31) });
        await RefuseAsync("reading-old", good with { At = good.At.AddSeconds(31) });
        await RefuseAsync("mass-not-positive", bench.Reading(0m));
        await RefuseAsync("mass-not-positive", bench.Reading(-0.001m));
        await RefuseAsync("overload", bench.Reading(620.001m));
        await small.Get<RunWeighing>().TakeAsync(small.People.Technician.Actor, lot.RunId, First, good, "good", default);

        Task RefuseAsync(string code, BalanceReading reading) =>
            laboratory.ShouldRefuseAsync(code, () => small.Get<RunWeighing>().TakeAsync(small.People.Technician.Actor, lot.RunId, First, reading, "bad", default));
    }

    /// <summary>A format may allow 512 characters, and each that cannot be printed is kept as four.</summary>
    [Theory]
    [EachDatabase]
    public async Task The_longest_line_that_a_balance_can_send_is_kept_whole(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, lot, bench) = await StartedAsync(laboratory);
        var line = string.Concat(Enumerable.Repeat(@"\x02", 500)) + "S + 260.123 g";
        await small.Get<RunWeighing>().TakeAsync(small.People.Technician.Actor, lot.RunId, First, bench.Reading(260.123m) with { RawLine = line }, "long", default);
        (await bench.ViewAsync(lot.RunId)).Run.Weighings.ShouldHaveSingleItem().RawLine.ShouldBe(line);
    }

    [Theory]
    [EachDatabase]
    public async Task A_portion_outside_the_methods_range_is_refused_and_its_ends_are_taken(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, lot, bench) = await StartedAsync(laboratory);
        await bench.WeighAsync(lot.RunId, First, 260m);
        foreach (var portion in (decimal[])[0m, -1m, 9.499m, 10.501m])
        {
            var refusal = await laboratory.ShouldRefuseAsync("portion-range", () => bench.WeighAsync(lot.RunId, Second, 260m + portion));
            refusal.Message.ShouldContain("9.5000 g to 10.5000 g");
        }

        await bench.WeighAsync(lot.RunId, Second, 269.5m);
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Loaded, 1, 270.5m, "More powder was added");
    }

    [Theory]
    [EachDatabase]
    public async Task Mass_gained_while_sieving_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, lot, bench) = await StartedAsync(laboratory);
        await bench.WeighAsync(lot.RunId, First, 260m);
        await bench.WeighAsync(lot.RunId, Second, 270m);
        await bench.SieveAsync(lot.RunId, 1, 180);
        var after = RunStep.Weigh(WeighingKind.After, 1);
        var refusal = await laboratory.ShouldRefuseAsync("mass-gained", () => bench.WeighAsync(lot.RunId, after, 270.01m));
        refusal.Message.ShouldBe("Mass gained: 270.0000 g before sieving, 270.0100 g after it. Check that the right sieve is on the pan and weigh again.");
        await laboratory.ShouldRefuseAsync("below-empty", () => bench.WeighAsync(lot.RunId, after, 259.99m));
        await bench.WeighAsync(lot.RunId, after, 270.002m);
    }

    [Theory]
    [EachDatabase]
    public async Task A_carried_residue_that_gained_or_vanished_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, lot, bench) = await StartedAsync(laboratory);
        for (var step = 0; step < 5; step++)
        {
            await bench.StepAsync(lot.RunId, Powder.Calcite);
        }

        var loaded = RunStep.Weigh(WeighingKind.Loaded, 2);
        await laboratory.ShouldRefuseAsync("mass-gained", () => bench.WeighAsync(lot.RunId, loaded, TestBench.TareGrams(2) + 6.02m));
        await laboratory.ShouldRefuseAsync("mass-lost", () => bench.WeighAsync(lot.RunId, loaded, TestBench.TareGrams(2) - 0.02m));
        await bench.WeighAsync(lot.RunId, loaded, TestBench.TareGrams(2) + 6.005m);
    }

    [Theory]
    [EachDatabase]
    public async Task A_stack_cannot_hold_more_than_was_put_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Spice);
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        for (var step = 0; step < 7; step++)
        {
            await bench.StepAsync(lot.RunId, Powder.Spice);
        }

        await laboratory.ShouldRefuseAsync("mass-gained", () => bench.WeighAsync(lot.RunId, RunStep.Weigh(WeighingKind.After, 3), TestBench.TareGrams(3) + 100.02m));
        await laboratory.ShouldRefuseAsync("below-empty", () => bench.WeighAsync(lot.RunId, RunStep.Weigh(WeighingKind.After, 3), TestBench.TareGrams(3) - 0.02m));
    }

    [Theory]
    [EachDatabase]
    public async Task A_second_tab_and_a_step_out_of_turn_are_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, lot, bench) = await StartedAsync(laboratory);
        await laboratory.ShouldRefuseAsync("step-order", () => bench.WeighAsync(lot.RunId, Second, 270m));
        await bench.WeighAsync(lot.RunId, First, 260m);
        var refusal = await laboratory.ShouldRefuseAsync("step-done", () => small.Bench(small.People.SecondTechnician).WeighAsync(lot.RunId, First, 260m));
        refusal.Message.ShouldContain("Tom Reed");
        await laboratory.ShouldRefuseAsync("step-order", () => small.Get<RunSieving>().BeginAsync(small.People.Technician.Actor, lot.RunId, 1, "early", default));
        await laboratory.ShouldRefuseAsync("step-order", () => bench.WeighAsync(lot.RunId, RunStep.Sieve(1), 270m));
        await laboratory.ShouldRefuseAsync("step-missing", () => bench.SubmitAsync(lot.RunId));
    }

    [Theory]
    [EachDatabase]
    public async Task A_weighing_sent_twice_is_one_weighing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, lot, bench) = await StartedAsync(laboratory);
        var first = await bench.WeighAsync(lot.RunId, First, 260m, "once");
        var events = await laboratory.EventsAsync();
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(5));
        (await bench.WeighAsync(lot.RunId, First, 260.001m, "once")).ShouldBe(first);
        (await laboratory.EventsAsync()).ShouldBe(events);
        (await bench.ViewAsync(lot.RunId)).Run.Weighings.ShouldHaveSingleItem().Mass.ShouldBe(Mass.FromGrams(260m));
        await laboratory.ShouldRefuseAsync("key-used", () => bench.WeighAsync(lot.RunId, Second, 270m, "once"));
    }

    [Theory]
    [EachDatabase]
    public async Task Equipment_that_is_not_fit_stops_the_start_and_each_weighing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var bench = small.Bench();
        var sieves = small.Get<EquipmentLife<TestSieve>>();
        await sieves.StopAsync(small.People.Technician.Actor, lot.Method.SieveIds[0], "A dent in the cloth", 2, default);
        var refusal = await laboratory.ShouldRefuseAsync("sieve-unfit", () => bench.StartAsync(lot.RunId, lot.Method));
        refusal.Message.ShouldContain("A dent in the cloth");
        refusal.Message.ShouldContain("laboratory manager");
        await sieves.ReturnAsync(small.People.LaboratoryManager.Actor, lot.Method.SieveIds[0], "Looked at under the lens: only dirt", new DateOnly(2027, 1, 1), 3, default);
        await bench.StartAsync(lot.RunId, lot.Method);
        await sieves.StopAsync(small.People.Technician.Actor, lot.Method.SieveIds[0], "A hole after all", 4, default);
        await laboratory.ShouldRefuseAsync("equipment-unfit", () => bench.WeighAsync(lot.RunId, First, 260m));
    }

    [Theory]
    [EachDatabase]
    public async Task Weighing_again_needs_fit_equipment_too(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, lot, bench) = await StartedAsync(laboratory);
        await bench.WeighAsync(lot.RunId, First, 260m);
        await small.Get<EquipmentLife<Balance>>().StopAsync(small.People.Technician.Actor, small.BalanceId, "It drifts", 2, default);
        await laboratory.ShouldRefuseAsync("equipment-unfit", () => bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, 260.1m, "Dust on the frame"));
    }

    [Theory]
    [EachDatabase]
    public async Task A_balance_that_was_not_checked_today_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, lot, bench) = await StartedAsync(laboratory);
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(1));
        var refusal = await laboratory.ShouldRefuseAsync("equipment-unfit", () => bench.WeighAsync(lot.RunId, First, 260m));
        refusal.Message.ShouldContain("not been checked today");
        (await small.Get<BalanceTesting>().CheckAsync(small.People.Technician.Actor, small.BalanceId, bench.Reading(100.002m), CheckCircumstances.Ready, null, default)).ShouldBeTrue();
        await bench.WeighAsync(lot.RunId, First, 260m);
    }

    [Theory]
    [EachDatabase]
    public async Task Another_sieve_than_the_usual_one_is_refused_by_its_weight(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await ThreeTimesAsync(small);
        var (_, lot, bench) = await StartedAsync(laboratory);
        var refusal = await laboratory.ShouldRefuseAsync("sieve-tare", () => bench.WeighAsync(lot.RunId, First, TestBench.TareGrams(1) + 1.001m));
        refusal.Message.ShouldContain("TS-GC-45-020");
        await bench.WeighAsync(lot.RunId, First, TestBench.TareGrams(1) + 0.02m);
        (await small.Get<TareHistory>().OfAsync(small.People.Reviewer.Actor, lot.Method.SieveIds[0], default)).Count.ShouldBe(4);
        (await small.Get<EquipmentUses>().OfAsync(small.People.Reviewer.Actor, lot.Method.SieveIds[0], default)).Count.ShouldBe(4);
        (await small.Get<EquipmentUses>().OfAsync(small.People.Reviewer.Actor, small.BalanceId, default)).Count.ShouldBe(4);
    }

    [Theory]
    [EachDatabase]
    public async Task A_sieve_heavier_than_usual_is_cleaned_or_looked_at_before_it_is_used(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await ThreeTimesAsync(small);
        var (_, lot, bench) = await StartedAsync(laboratory);
        var heavy = TestBench.TareGrams(1) + 0.021m;
        var refusal = await laboratory.ShouldRefuseAsync("sieve-residue", () => bench.WeighAsync(lot.RunId, First, heavy));
        refusal.Message.ShouldContain("0.0210 g heavier: residue is left in the mesh");
        await laboratory.ShouldRefuseAsync("reason-missing", () => bench.LookAsync(lot.RunId, 1, " "));
        await laboratory.ShouldRefuseAsync("step-order", () => bench.LookAsync(lot.RunId, 2, "Brushed, mesh whole"));
        await bench.LookAsync(lot.RunId, 1, "Brushed, mesh whole");
        await laboratory.ShouldRefuseAsync("sieve-tare", () => bench.WeighAsync(lot.RunId, First, TestBench.TareGrams(1) + 1.001m));
        await bench.WeighAsync(lot.RunId, First, heavy);
        var view = await bench.ViewAsync(lot.RunId);
        view.Run.Looks.ShouldHaveSingleItem().Usual.ShouldBe(Mass.FromGrams(TestBench.TareGrams(1)));
        view.Findings.ShouldContain(finding => finding.StartsWith("The empty sieve at 20 µm weighed 260.1440 g, 0.0210 g more than usual.", StringComparison.Ordinal) && finding.EndsWith("looked at it: Brushed, mesh whole", StringComparison.Ordinal));
    }

    [Theory]
    [EachDatabase]
    public async Task A_sieve_lighter_than_usual_may_have_lost_wire(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await ThreeTimesAsync(laboratory.Small);
        var (_, lot, bench) = await StartedAsync(laboratory);
        var refusal = await laboratory.ShouldRefuseAsync("sieve-loss", () => bench.WeighAsync(lot.RunId, First, TestBench.TareGrams(1) - 0.021m));
        refusal.Message.ShouldContain("wire or solder may be lost");
        await bench.WeighAsync(lot.RunId, First, TestBench.TareGrams(1) - 0.02m);
    }

    [Theory]
    [EachDatabase]
    public async Task Only_a_sieve_with_a_history_can_be_looked_at_for_its_mass(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, lot, bench) = await StartedAsync(laboratory);
        await laboratory.ShouldRefuseAsync("tare-unknown", () => bench.LookAsync(lot.RunId, 1, "Mesh whole"));
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_takes_one_fitting_sieve_for_each_aperture_that_nobody_else_uses(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, lot, _) = await StartedAsync(laboratory);
        var other = await small.BookInAsync(small.Calcite);
        var refusal = await laboratory.ShouldRefuseAsync("sieve-in-use", () => small.Bench().StartAsync(other.RunId, other.Method));
        refusal.Message.ShouldContain((await small.Bench().ViewAsync(lot.RunId)).Run.Number);
        var sieves = other.Method.SieveIds.ToArray();
        await laboratory.ShouldRefuseAsync("sieves-chosen", () => StartAsync(sieves[..3]));
        await laboratory.ShouldRefuseAsync("sieves-chosen", () => StartAsync([sieves[0], sieves[0], sieves[2], sieves[3]]));
        await laboratory.ShouldRefuseAsync("sieve-wrong", () => StartAsync([sieves[1], sieves[0], sieves[2], sieves[3]]));

        Task StartAsync(Guid[] chosen) => small.Get<RunStart>().StartAsync(small.People.Technician.Actor, other.RunId, new RunEquipment(small.BalanceId, chosen), 1, null, null, default);
    }

    private static async Task ThreeTimesAsync(SmallLaboratory small)
    {
        for (var earlier = 0; earlier < 3; earlier++)
        {
            await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        }
    }

    private static async Task<(SmallLaboratory Small, TestLot Lot, TestBench Bench)> StartedAsync(OpenedSmallLaboratory laboratory)
    {
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        return (small, lot, small.Bench());
    }
}

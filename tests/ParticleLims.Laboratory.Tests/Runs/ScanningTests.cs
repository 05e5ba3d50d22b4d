using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>A scanned label proves which sieve is in hand and in which order a stack is built.</summary>
public sealed class ScanningTests
{
    [Theory]
    [EachDatabase]
    public async Task Where_the_method_asks_for_labels_an_empty_sieve_is_weighed_only_after_its_own_was_scanned(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (run, bench) = await StartAsync(small, small.Calcite);
        var first = RunStep.Weigh(WeighingKind.Empty, 1);
        (await laboratory.ShouldRefuseAsync("sieve-not-scanned", () => bench.WeighAsync(run, first, TestBench.TareGrams(1)))).Message.ShouldBe("The method asks for each sieve's label. Scan the 20 µm sieve TS-GC-45-020 first.");
        (await laboratory.ShouldRefuseAsync("sieve-other", () => bench.ScanAsync(run, "TS-GC-45-045"))).Message.ShouldContain("This is the 45 µm sieve TS-GC-45-045. The step asks for the 20 µm sieve TS-GC-45-020.");
        (await laboratory.ShouldRefuseAsync("sieve-other", () => bench.ScanAsync(run, "TS-PS-63-032"))).Message.ShouldContain("does not belong to this run");
        (await laboratory.ShouldRefuseAsync("code-unknown", () => bench.ScanAsync(run, "4006381333931"))).Message.ShouldContain("“4006381333931” is neither a sieve nor a sample of this laboratory.");

        (await bench.ScanAsync(run, " ts-gc-45-020 ")).ShouldBe("The right sieve: 20 µm, TS-GC-45-020. Put it on the pan.");
        await bench.WeighAsync(run, first, TestBench.TareGrams(1));
        var scan = (await bench.ViewAsync(run)).Run.Scans.ShouldHaveSingleItem();
        (scan.Position, scan.Place, scan.PersonName).ShouldBe((1, ScanPlace.Pan, "Tom Reed"));
        await laboratory.ShouldRefuseAsync("sieve-other", () => bench.ScanAsync(run, "TS-GC-45-032"));
        (await bench.ScanAsync(run, "TS-GC-45-020")).ShouldBe("The 20 µm sieve TS-GC-45-020 belongs to this run.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_stack_is_built_from_the_receiver_up_and_sieved_only_when_it_is_complete(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (run, bench) = await StartAsync(small, small.Spice);
        while ((await bench.ViewAsync(run)).Next is { Kind: RunStepKind.Weigh } step)
        {
            if (step.Weighing == WeighingKind.Empty)
            {
                await bench.ScanAsync(run, $"TS-SB-500-{new[] { 125, 250, 500 }[step.Position - 1]}");
            }

            await bench.StepAsync(run, Powder.Spice);
        }

        (await laboratory.ShouldRefuseAsync("stack-incomplete", () => bench.SieveAsync(run, 0, 300))).Message.ShouldBe("The stack is not complete: scan the 125 µm sieve TS-SB-500-125 as you put it on.");
        (await laboratory.ShouldRefuseAsync("stack-order", () => bench.ScanAsync(run, "TS-SB-500-500"))).Message.ShouldBe("The 500 µm sieve TS-SB-500-500 comes later. Now the 125 µm sieve TS-SB-500-125 goes on: from the receiver up each sieve is coarser than the one below.");
        (await bench.ScanAsync(run, "TS-SB-500-125")).ShouldEndWith("Next: 250 µm sieve TS-SB-500-250.");
        (await bench.ScanAsync(run, "TS-SB-500-125")).ShouldBe("TS-SB-500-125 stands in the stack already. Next: 250 µm sieve TS-SB-500-250.");
        await bench.ScanAsync(run, "TS-SB-500-250");
        (await bench.ScanAsync(run, "TS-SB-500-500")).ShouldEndWith("The stack is complete. Put the lid on.");
        await bench.FinishAsync(run, Powder.Spice);
        (await bench.SubmitAsync(run)).ShouldBeTrue();
    }

    [Theory]
    [EachDatabase]
    public async Task The_label_of_another_sample_is_refused_and_that_of_the_right_one_confirmed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var other = await small.BookInAsync(small.Calcite);
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        var (mine, its) = ((await bench.ViewAsync(lot.RunId)).Run.SampleCode, (await bench.ViewAsync(other.RunId)).Run.SampleCode);
        (await bench.ScanAsync(lot.RunId, mine)).ShouldBe($"Sample {mine} belongs to this run.");
        (await laboratory.ShouldRefuseAsync("sample-other", () => bench.ScanAsync(lot.RunId, its))).Message.ShouldBe($"This is sample {its}. The run is of sample {mine}. Put the other one away.");
    }

    private static async Task<(Guid Run, TestBench Bench)> StartAsync(SmallLaboratory small, TestMethod method)
    {
        var lot = await small.BookInAsync(await small.WithMethodAsync(method, draft => draft with { SievesScanned = true }));
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        return (lot.RunId, bench);
    }
}

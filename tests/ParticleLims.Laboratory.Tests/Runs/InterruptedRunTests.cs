using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>The program ends and starts again between any two steps, others take over, a send is repeated: the run goes on where it was.</summary>
public sealed class InterruptedRunTests
{
    [Theory]
    [EachDatabase(1)]
    [EachDatabase(2)]
    [EachDatabase(3)]
    public async Task A_run_goes_on_after_each_reopening_at_the_same_step_and_ends_the_same(DatabaseKind kind, int seed)
    {
        var random = new Random(seed);
        var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        try
        {
            var (method, powder) = seed switch { 1 => (laboratory.Small.Calcite, Powder.Calcite), 2 => (laboratory.Small.Starch, Powder.Starch), _ => (laboratory.Small.Spice, Powder.Spice) };
            var run = (await laboratory.Small.BookInAsync(method)).RunId;
            await laboratory.Small.Bench().StartAsync(run, method);
            while ((await laboratory.Small.Bench().ViewAsync(run)).Next is { } next)
            {
                if (random.Next(3) == 0)
                {
                    var before = await SeenAsync(laboratory, run);
                    laboratory = await laboratory.ReopenAsync();
                    (await SeenAsync(laboratory, run)).ShouldBe(before);
                }

                await GoAsync(laboratory, run, next, powder, random);
            }

            await laboratory.Small.Bench().SubmitAsync(run);
            laboratory = await laboratory.ReopenAsync();
            var stored = (await laboratory.Small.Bench().ViewAsync(run)).Stored!;
            stored.SameBits.ShouldBeTrue();
            foreach (var cut in stored.Result.Cuts)
            {
                cut.PassingPercent.ToDouble().ShouldBe((double)(100m - powder.RetainedPercent[cut.Aperture.Micrometres]), 1e-9);
            }

            (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
        }
        finally
        {
            await laboratory.DisposeAsync();
        }
    }

    private static async Task GoAsync(OpenedSmallLaboratory laboratory, Guid run, RunStep next, Powder powder, Random random)
    {
        var small = laboratory.Small;
        var bench = small.Bench(random.Next(2) == 0 ? small.People.Technician : small.People.SecondTechnician);
        var view = await bench.ViewAsync(run);
        if (next.Kind == RunStepKind.Sieve)
        {
            await bench.SieveAsync(run, next.Position, random.Next(1, view.Method.Seconds + 1));
            return;
        }

        var (grams, key) = (TestBench.ExpectedGrams(view, next, powder), FormattableString.Invariant($"{next.Weighing}-{next.Position}"));
        var taken = await bench.WeighAsync(run, next, grams, key);
        (await bench.WeighAsync(run, next, grams, key)).ShouldBe(taken, "a send that is repeated is answered as the first");
        if (random.Next(3) == 0)
        {
            await bench.WeighAgainAsync(run, next.Weighing!.Value, next.Position, grams, "The draught shield was open");
        }
    }

    private static async Task<string> SeenAsync(OpenedSmallLaboratory laboratory, Guid run)
    {
        var view = await laboratory.Small.Bench().ViewAsync(run);
        return string.Join('\n', view.Run.StandingWeighings.OrderBy(weighing => weighing.At).ThenBy(weighing => weighing.Id).Select(weighing => $"{weighing.Kind} {weighing.Position} {weighing.Mass} {weighing.RawLine} {weighing.PersonName}")
            .Append($"{view.Next} after {view.Run.Intervals.Sum(interval => interval.Seconds)} s, version {view.Run.Version}"));
    }
}

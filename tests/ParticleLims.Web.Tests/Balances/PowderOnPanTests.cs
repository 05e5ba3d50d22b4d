using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.Runs;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Balances;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Balances;

public sealed class PowderOnPanTests
{
    public static TheoryData<int> Procedures { get; } = [0, 1, 2];

    [Theory]
    [MemberData(nameof(Procedures))]
    public async Task A_run_of_the_simulated_powder_is_believed_at_every_step_and_conforms(int which)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var small = laboratory.Small;
        var method = new[] { small.Calcite, small.Starch, small.Spice }[which];
        var run = (await small.BookInSampleAsync(await small.BookInLotAsync(method), method)).RunIds[0];
        var bench = small.Bench();
        await bench.StartAsync(run, method);

        RunView view;
        for (view = await bench.ViewAsync(run); view.Next is { } step; view = await bench.ViewAsync(run))
        {
            if (step.Kind == RunStepKind.Sieve)
            {
                await bench.SieveAsync(run, step.Position, view.Method.Seconds);
            }
            else
            {
                var mass = PowderOnPan.For(view, step, usualTare: null);
                mass.ShouldBe(PowderOnPan.For(view, step, usualTare: null));
                await bench.WeighAsync(run, step, mass.Grams);
            }
        }

        var result = view.SoFar.ShouldBeOfType<Evaluated>().Result;
        result.Verdicts.ShouldNotBeEmpty();
        result.Verdicts.ShouldAllBe(verdict => verdict.Verdict == Verdict.Conforms);
        (await bench.SubmitAsync(run)).ShouldBeTrue();
    }
}

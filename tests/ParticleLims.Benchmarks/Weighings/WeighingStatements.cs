using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.Benchmarks.Weighings;

/// <summary>Prints the statements that the database is sent for one weighing of each kind. They are counted in a second run, when everything is translated.</summary>
internal static class WeighingStatements
{
    /// <summary>Carries out two runs and prints what the second one's weighings asked of the database.</summary>
    public static async Task<int> RunAsync()
    {
        var log = new StatementLog();
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite, services => services.ConfigureDbContext<LaboratoryContext>(options => options.AddInterceptors(log)));
        await CarryOutAsync(laboratory.Small, log, print: false);
        await CarryOutAsync(laboratory.Small, log, print: true);
        return 0;
    }

    private static async Task CarryOutAsync(SmallLaboratory small, StatementLog log, bool print)
    {
        var (bench, lot) = (small.Bench(), await small.BookInAsync(small.Calcite));
        await bench.StartAsync(lot.RunId, small.Calcite);
        while (await bench.ViewAsync(lot.RunId) is { Next: { } step } view)
        {
            if (step.Kind == RunStepKind.Sieve)
            {
                await bench.StepAsync(lot.RunId, Powder.Calcite);
                continue;
            }

            log.Take();
            await bench.WeighAsync(lot.RunId, step, TestBench.ExpectedGrams(view, step, Powder.Calcite));
            if (print && step.Position == 1)
            {
                Print(step, log.Take());
            }
        }

        await bench.SubmitAsync(lot.RunId);
    }

    private static void Print(RunStep step, IReadOnlyList<(string Text, TimeSpan Took)> statements)
    {
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{step.Weighing} of sieve {step.Position}: {statements.Count} statements"));
        foreach (var (text, took) in statements)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {took.TotalMilliseconds,6:0.00} ms  {text.ReplaceLineEndings(" ")}"));
        }
    }
}

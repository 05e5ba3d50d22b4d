using System.Globalization;
using System.Runtime.InteropServices;
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>Measures the engine and writes the table of docs/science/speed.md into a file.</summary>
internal static class SpeedTable
{
    private static readonly (string Words, string Method, double? AimMicroseconds, string? Beside)[] Rows =
    [
        ("10⁶ trials, carried residue", nameof(MonteCarloTrials.CarriedResidue), 60_000, null),
        ("10⁶ trials, separate portions", nameof(MonteCarloTrials.SeparatePortions), 60_000, nameof(MonteCarloTrials.SeparatePortionsWithMathNet)),
        ("weighted Rosin-Rammler fit, six points", nameof(ModelFit.WeightedRosinRammlerFit), 4, nameof(ModelFit.WeightedRosinRammlerFitWithMathNet)),
        ("three models by both methods, six points", nameof(ModelFit.ThreeModels), null, null),
        ("10⁶ stored distributions, four limits, all cores", nameof(HistoryJudgement.OnAllCores), 25_000, nameof(HistoryJudgement.WithMathNet)),
        ("the same on one core", nameof(HistoryJudgement.OnOneCore), null, nameof(HistoryJudgement.WithMathNet)),
        ("evaluation with analytic uncertainty, carried residue", nameof(FullEvaluation.CarriedResidueAnalytic), 60, null),
        ("evaluation with analytic uncertainty, separate portions", nameof(FullEvaluation.SeparatePortionsAnalytic), 60, null),
        ("evaluation without uncertainty, carried residue", nameof(FullEvaluation.CarriedResidueWithoutUncertainty), null, null),
    ];

    public static async Task<int> RunAsync(string file)
    {
        Type[] measured = [typeof(MonteCarloTrials), typeof(ModelFit), typeof(HistoryJudgement), typeof(FullEvaluation)];
        var reports = measured.SelectMany(type => BenchmarkRunner.Run(type, Config()).Reports).ToDictionary(report => report.BenchmarkCase.Descriptor.WorkloadMethod.Name);
        List<string> lines =
        [
            Words($"{Environment.ProcessorCount} cores, {RuntimeInformation.ProcessArchitecture}, {RuntimeInformation.FrameworkDescription}, MathNet.Numerics {typeof(MathNet.Numerics.Constants).Assembly.GetName().Version?.ToString(3)}."),
            string.Empty,
            "| what | median | smallest | allocated | aim | MathNet alone, median | MathNet to ours |",
            "| --- | --- | --- | --- | --- | --- | --- |",
            .. Rows.Select(row => Line(row.Words, reports[row.Method], row.AimMicroseconds, row.Beside is null ? null : reports[row.Beside])),
        ];
        await File.WriteAllLinesAsync(file, lines);
        return 0;
    }

    private static string Line(string words, BenchmarkReport ours, double? aim, BenchmarkReport? beside)
    {
        var (median, least) = (ours.ResultStatistics!.Median / 1000, ours.ResultStatistics.Min / 1000);
        var allocated = ours.GcStats.GetBytesAllocatedPerOperation(ours.BenchmarkCase).GetValueOrDefault();
        var reached = aim is null ? "-" : Words($"{Time(aim.Value)}: {(median < aim ? "reached" : least < aim ? "by the smallest only" : "not reached")}");
        var other = beside is null ? "- | -" : Words($"{Time(beside.ResultStatistics!.Median / 1000)} | {beside.ResultStatistics.Median / ours.ResultStatistics.Median:0.0}");
        return Words($"| {words} | {Time(median)} | {Time(least)} | {Bytes(allocated)} | {reached} | {other} |");
    }

    private static string Time(double microseconds) => microseconds >= 1000 ? Words($"{microseconds / 1000:0.0} ms") : Words($"{microseconds:0.0} µs");

    private static string Bytes(long bytes) => bytes >= 1_000_000 ? Words($"{bytes / 1e6:0.0} MB") : Words($"{bytes / 1e3:0.0} kB");

    private static ManualConfig Config() => ManualConfig.CreateEmpty()
        .AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(3).WithIterationCount(15))
        .AddDiagnoser(MemoryDiagnoser.Default).AddLogger(ConsoleLogger.Default).AddColumnProvider(DefaultColumnProviders.Instance)
        .WithArtifactsPath(Path.Combine(Path.GetTempPath(), "BenchmarkDotNet.Artifacts"));

    private static string Words(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}

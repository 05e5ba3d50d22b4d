using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using ParticleLims.Benchmarks.Analysis;
using ParticleLims.Benchmarks.Certificates;
using ParticleLims.Benchmarks.ColdStarts;
using ParticleLims.Benchmarks.Histories;
using ParticleLims.Benchmarks.Record;
using ParticleLims.Benchmarks.Weighings;

namespace ParticleLims.Benchmarks;

/// <summary>What can be measured, by the first word of the command line. docs/operations/speed.md and docs/science/speed.md tell what each figure means.</summary>
internal static class Benchmarking
{
    private static async Task<int> Main(string[] arguments)
    {
        try
        {
            return await MeasureAsync(arguments);
        }
        catch (Exception fault)
        {
            // Caught, so that everything is closed and removed on the way out.
            await Console.Error.WriteLineAsync(fault.ToString());
            return 1;
        }
    }

    private static async Task<int> MeasureAsync(string[] arguments)
    {
        switch (arguments)
        {
            case ["cold-start", .. var rest]:
                return await ColdStart.RunAsync(rest);
            case ["weighing", .. var rest]:
                return await WeighingPath.RunAsync(Repeats.Read(rest, otherwise: 300));
            case ["statements"]:
                return await WeighingStatements.RunAsync();
            case ["certificate", .. var rest]:
                return await CertificateIssuing.RunAsync(Repeats.Read(rest, otherwise: 100));
            case ["certificate-rate", .. var rest]:
                return await CertificateRate.RunAsync(Repeats.Read(rest, otherwise: 20));
            case ["record", .. var rest]:
                return await RecordVerifying.RunAsync(Repeats.Read(rest, otherwise: 100));
            case ["what-if", .. var rest]:
                return await WhatIfScoring.RunAsync(Repeats.Read(rest, otherwise: 100));
            case ["engine", var file]:
                return await SpeedTable.RunAsync(file);
            default:
                BenchmarkSwitcher.FromAssembly(typeof(Benchmarking).Assembly).Run(arguments, InThisProcess());
                return 0;
        }
    }

    // A generated project would be built under the rules of this house, analyzers and lock files included, and does not keep them.
    private static ManualConfig InThisProcess() =>
        DefaultConfig.Instance.AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance).AsDefault()).AddDiagnoser(MemoryDiagnoser.Default)
            .WithArtifactsPath(Path.Combine(Path.GetTempPath(), "BenchmarkDotNet.Artifacts"));
}

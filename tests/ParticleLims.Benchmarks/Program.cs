using BenchmarkDotNet.Running;

namespace ParticleLims.Benchmarks;

internal static class Benchmarking
{
    private static void Main(string[] arguments) => BenchmarkSwitcher.FromAssembly(typeof(Benchmarking).Assembly).Run(arguments);
}

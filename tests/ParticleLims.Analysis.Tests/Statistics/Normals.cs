using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Tests.Statistics;

/// <summary>Normal numbers from a seed, the same at each run: SplitMix64 (Steele, Lea and Flood, 2014) through the quantile.</summary>
internal sealed class Normals(ulong seed)
{
    private ulong _state = seed;

    public double Next()
    {
        _state += 0x9E3779B97F4A7C15;
        var z = (_state ^ (_state >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        z ^= z >> 31;
        var p = ((z >> 12) + 0.5) / (1UL << 52);
        return NormalDistribution.Quantile(p, 1 - p);
    }
}

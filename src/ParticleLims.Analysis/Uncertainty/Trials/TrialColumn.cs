using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>Fills a column, one number for each trial of a chunk, with draws from a distribution (JCGM 101:2008, 6.4).</summary>
internal static class TrialColumn
{
    /// <summary>How many trials are computed together: few enough to stay in the processor's cache, a multiple of eight.</summary>
    public const int Length = 200;

    private const double SqrtTwelve = 3.4641016151377544;

    /// <summary>Adds normal draws of a standard deviation: Box and Muller, Annals of Mathematical Statistics 29 (1958) 610.</summary>
    public static void AddNormal(Span<double> column, double standardDeviation, ref TrialRandom random)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(column);
        for (var i = 0; i + 1 < vectors.Length; i += 2)
        {
            // 1 - u lies above zero, where the logarithm is finite.
            var radius = Vector256.Sqrt(VectorFunctions.Log(Vector256<double>.One - random.Even()) * -2) * standardDeviation;
            var (sine, cosine) = VectorFunctions.OfTurn(random.Even());
            vectors[i] += radius * cosine;
            vectors[i + 1] += radius * sine;
        }
    }

    /// <summary>Adds rectangular draws of a standard deviation, which is the half width over the root of three.</summary>
    public static void AddRectangular(Span<double> column, double standardDeviation, ref TrialRandom random)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(column);
        var width = Vector256.Create(SqrtTwelve * standardDeviation);
        for (var i = 0; i < vectors.Length; i++)
        {
            vectors[i] += (random.Even() - Vector256.Create(0.5)) * width;
        }
    }
}

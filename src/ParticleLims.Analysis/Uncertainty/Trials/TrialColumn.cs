using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>Fills columns, one number for each trial of a chunk, with draws from distributions (JCGM 101:2008, 6.4). Every draw has 32 bits of its own.</summary>
internal static class TrialColumn
{
    /// <summary>How many trials are computed together: few enough to stay in the processor's cache, a multiple of eight.</summary>
    public const int Length = 200;

    private const double SqrtTwelve = 3.4641016151377544;
    private const double OneOfAll = 1.0 / 4_294_967_296;
    private const double Middle = 2_147_483_647.5;
    private const double SqrtTwo = 1.4142135623730951;
    private const double SqrtHalf = 0.70710678118654757;
    private const double SqrtThreeHalves = 1.2247448713915889;

    /// <summary>Adds normal draws of a standard deviation.</summary>
    public static void AddNormal(Span<double> column, double standardDeviation, ref TrialRandom random)
    {
        var own = random;
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(column);
        for (var i = 0; i + 1 < vectors.Length; i += 2)
        {
            var (first, second) = Normals(ref own);
            vectors[i] = Vector256.FusedMultiplyAdd(first, Vector256.Create(standardDeviation), vectors[i]);
            vectors[i + 1] = Vector256.FusedMultiplyAdd(second, Vector256.Create(standardDeviation), vectors[i + 1]);
        }

        random = own;
    }

    /// <summary>
    /// Adds draws of b - t to one column and of a - t to another, with a, b and t normal with the same standard deviation: two numbers of variance 2 and covariance 1 need two normal draws,
    /// not three.
    /// </summary>
    public static void AddNormalDifferences(Span<double> column, Span<double> other, double standardDeviation, ref TrialRandom random)
    {
        var own = random;
        var to = MemoryMarshal.Cast<double, Vector256<double>>(column);
        var beside = MemoryMarshal.Cast<double, Vector256<double>>(other);
        var (both, shared, alone) = (Vector256.Create(SqrtTwo * standardDeviation), Vector256.Create(SqrtHalf * standardDeviation), Vector256.Create(SqrtThreeHalves * standardDeviation));
        for (var i = 0; i < to.Length; i++)
        {
            var (first, second) = Normals(ref own);
            to[i] = Vector256.FusedMultiplyAdd(first, both, to[i]);
            beside[i] = Vector256.FusedMultiplyAdd(second, alone, Vector256.FusedMultiplyAdd(first, shared, beside[i]));
        }

        random = own;
    }

    /// <summary>Adds rectangular draws of a standard deviation, which is the half width over the root of three.</summary>
    public static void AddRectangular(Span<double> column, double standardDeviation, ref TrialRandom random)
    {
        var own = random;
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(column);
        var step = Vector256.Create(Step(standardDeviation));
        for (var i = 0; i + 1 < vectors.Length; i += 2)
        {
            var (first, second) = own.Halves();
            vectors[i] = Vector256.FusedMultiplyAdd(Centred(first), step, vectors[i]);
            vectors[i + 1] = Vector256.FusedMultiplyAdd(Centred(second), step, vectors[i + 1]);
        }

        random = own;
    }

    /// <summary>Adds draws of a - t, with a and t each the sum of two rectangular numbers of given standard deviations.</summary>
    public static void AddRectangularDifference(Span<double> column, double oneDeviation, double otherDeviation, ref TrialRandom random)
    {
        var own = random;
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(column);
        var (one, other) = (Vector256.Create(Step(oneDeviation)), Vector256.Create(Step(otherDeviation)));
        for (var i = 0; i < vectors.Length; i++)
        {
            var (t, a) = (own.Halves(), own.Halves());
            vectors[i] = Vector256.FusedMultiplyAdd(a.High - t.High, other, Vector256.FusedMultiplyAdd(a.Low - t.Low, one, vectors[i]));
        }

        random = own;
    }

    /// <summary>The same of b - t and a - t with one t.</summary>
    public static void AddRectangularDifferences(Span<double> column, Span<double> beside, double oneDeviation, double otherDeviation, ref TrialRandom random)
    {
        var own = random;
        var ofB = MemoryMarshal.Cast<double, Vector256<double>>(column);
        var ofA = MemoryMarshal.Cast<double, Vector256<double>>(beside);
        var (one, other) = (Vector256.Create(Step(oneDeviation)), Vector256.Create(Step(otherDeviation)));
        for (var i = 0; i < ofB.Length; i++)
        {
            var (t, b, a) = (own.Halves(), own.Halves(), own.Halves());
            ofB[i] = Vector256.FusedMultiplyAdd(b.High - t.High, other, Vector256.FusedMultiplyAdd(b.Low - t.Low, one, ofB[i]));
            ofA[i] = Vector256.FusedMultiplyAdd(a.High - t.High, other, Vector256.FusedMultiplyAdd(a.Low - t.Low, one, ofA[i]));
        }

        random = own;
    }

    /// <summary>Two standard normal draws: Box and Muller, Annals of Mathematical Statistics 29 (1958) 610. The number under the logarithm lies above zero and at most at one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> First, Vector256<double> Second) Normals(ref TrialRandom random)
    {
        var (low, high) = random.Halves();
        var radius = Vector256.Sqrt(VectorFunctions.Log((low - Vector256.Create(TrialRandom.Whole - 1)) * OneOfAll) * -2);
        var (sine, cosine) = VectorFunctions.OfTurn((high - Vector256.Create(TrialRandom.Whole)) * OneOfAll);
        return (radius * cosine, radius * sine);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Centred(Vector256<double> whole) => whole - Vector256.Create(TrialRandom.Whole) - Vector256.Create(Middle);

    /// <summary>The width of a rectangle over the 2^32 numbers drawn for it.</summary>
    private static double Step(double standardDeviation) => SqrtTwelve * standardDeviation * OneOfAll;
}

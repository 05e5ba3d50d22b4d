using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// Elementary functions of four numbers at once for the trials, of additions, multiplications, fused ones, divisions and square roots alone: a machine without wide registers computes the
/// same bits, only slower. Relative error below 1e-14 (docs/science/elementary-functions.md).
/// </summary>
internal static class VectorFunctions
{
    /// <summary>Adding and taking away 1.5 * 2^52 rounds to a whole number, which stands then in the low bits.</summary>
    private const double Rounder = 6_755_399_441_055_744;
    private const double WholeFromBits = 4_503_599_627_370_496;
    private const double OneOverLn2 = 1.4426950408889634;
    private const double HalfPi = 1.5707963267948966;

    /// <summary>ln x for positive normal numbers.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Log(Vector256<double> x)
    {
        var bits = x.AsUInt64();
        var exponent = (Vector256.ShiftRightLogical(bits, 52) | Vector256.Create(0x4330_0000_0000_0000UL)).AsDouble() - Vector256.Create(WholeFromBits + 1023);
        var mantissa = ((bits & Vector256.Create(0xF_FFFF_FFFF_FFFFUL)) | Vector256.Create(0x3FF0_0000_0000_0000UL)).AsDouble();
        var large = Vector256.GreaterThan(mantissa, Vector256.Create(1.4142135623730951));
        mantissa = Vector256.ConditionalSelect(large, mantissa * 0.5, mantissa);
        exponent = Vector256.ConditionalSelect(large, exponent + Vector256<double>.One, exponent);

        var f = mantissa - Vector256<double>.One;
        var s = f / (mantissa + Vector256<double>.One);
        var z = s * s;
        var sum = Vector256.Create(2.0 / 19);
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 17));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 15));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 13));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 11));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 9));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 7));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 5));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0 / 3));
        var rest = Vector256.FusedMultiplyAdd(exponent, Vector256.Create(NaturalLogarithm.Ln2Low), s * Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(2.0)));
        return Vector256.FusedMultiplyAdd(exponent, Vector256.Create(NaturalLogarithm.Ln2High), rest);
    }

    /// <summary>e to the power x, for x from -700 to 700.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Exp(Vector256<double> x)
    {
        var rounded = Vector256.FusedMultiplyAdd(x, Vector256.Create(OneOverLn2), Vector256.Create(Rounder));
        var k = rounded - Vector256.Create(Rounder);
        var r = Vector256.FusedMultiplyAdd(k, Vector256.Create(-NaturalLogarithm.Ln2Low), Vector256.FusedMultiplyAdd(k, Vector256.Create(-NaturalLogarithm.Ln2High), x));
        var sum = Vector256.Create(1.0 / 6_227_020_800);
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 479_001_600));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 39_916_800));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 3_628_800));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 362_880));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 40_320));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 5_040));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 720));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 120));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 24));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(1.0 / 6));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256.Create(0.5));
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256<double>.One);
        sum = Vector256.FusedMultiplyAdd(sum, r, Vector256<double>.One);
        var power = Vector256.ShiftLeft(rounded.AsInt64() + Vector256.Create(1023L), 52);
        return sum * power.AsDouble();
    }

    /// <summary>Sine and cosine of a part of a full turn, from 0 to 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector256<double> Sine, Vector256<double> Cosine) OfTurn(Vector256<double> turn)
    {
        var quarters = turn * 4;
        var rounded = quarters + Vector256.Create(Rounder);
        var angle = (quarters - (rounded - Vector256.Create(Rounder))) * HalfPi;
        var z = angle * angle;
        var sine = angle * SineSeries(z);
        var cosine = CosineSeries(z);
        var quarter = rounded.AsInt64();
        var swapped = Vector256.Equals(quarter & Vector256<long>.One, Vector256<long>.One).AsDouble();
        var minusSine = Vector256.ShiftLeft(quarter & Vector256.Create(2L), 62);
        var minusCosine = Vector256.ShiftLeft((quarter + Vector256<long>.One) & Vector256.Create(2L), 62);
        return (
            (Vector256.ConditionalSelect(swapped, cosine, sine).AsInt64() ^ minusSine).AsDouble(),
            (Vector256.ConditionalSelect(swapped, sine, cosine).AsInt64() ^ minusCosine).AsDouble());
    }

    /// <summary>sin x / x by Taylor's series in z = x², for |x| up to a quarter of a half turn.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> SineSeries(Vector256<double> z)
    {
        var sum = Vector256.Create(-1.0 / 1_307_674_368_000);
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(1.0 / 6_227_020_800));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-1.0 / 39_916_800));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(1.0 / 362_880));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-1.0 / 5_040));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(1.0 / 120));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-1.0 / 6));
        return Vector256.FusedMultiplyAdd(sum, z, Vector256<double>.One);
    }

    /// <summary>cos x by Taylor's series in z = x².</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> CosineSeries(Vector256<double> z)
    {
        var sum = Vector256.Create(1.0 / 20_922_789_888_000);
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-1.0 / 87_178_291_200));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(1.0 / 479_001_600));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-1.0 / 3_628_800));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(1.0 / 40_320));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-1.0 / 720));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(1.0 / 24));
        sum = Vector256.FusedMultiplyAdd(sum, z, Vector256.Create(-0.5));
        return Vector256.FusedMultiplyAdd(sum, z, Vector256<double>.One);
    }
}

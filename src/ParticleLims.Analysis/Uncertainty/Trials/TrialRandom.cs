using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// Random numbers for trials: xoshiro256++ (Blackman and Vigna, ACM Transactions on Mathematical Software 47 (2021) 36), four streams beside each other. Each block of trials has its own
/// four, 2^128 numbers apart by the generator's jump, so that a trial's numbers hang on seed and place alone, not on who computes it (docs/science/monte-carlo.md).
/// </summary>
[StructLayout(LayoutKind.Auto)]
internal struct TrialRandom
{
    /// <summary>The streams beside each other.</summary>
    public const int Lanes = 4;

    /// <summary>What <see cref="Halves"/> adds to each number.</summary>
    public const double Whole = 4_503_599_627_370_496;

    private const ulong WholeBits = 0x4330_0000_0000_0000;

    private static readonly ulong[] Jump = [0x180EC6D33CFD0ABA, 0xD5A61266F0C9392C, 0xA9582618E03FC9AA, 0x39ABDC4529B1661C];

    private Vector256<ulong> _s0;
    private Vector256<ulong> _s1;
    private Vector256<ulong> _s2;
    private Vector256<ulong> _s3;

    private TrialRandom(ReadOnlySpan<ulong> s0, ReadOnlySpan<ulong> s1, ReadOnlySpan<ulong> s2, ReadOnlySpan<ulong> s3)
    {
        (_s0, _s1, _s2, _s3) = (Vector256.Create(s0), Vector256.Create(s1), Vector256.Create(s2), Vector256.Create(s3));
    }

    /// <summary>The generators of so many blocks, from a seed spread by SplitMix64.</summary>
    public static TrialRandom[] ForBlocks(long seed, int blocks)
    {
        var state = new ulong[4];
        var spread = unchecked((ulong)seed);
        for (var i = 0; i < state.Length; i++)
        {
            state[i] = Spread(ref spread);
        }

        return ForBlocks(state, blocks);
    }

    /// <summary>The generators of so many blocks, from the state of the first stream.</summary>
    public static TrialRandom[] ForBlocks(ReadOnlySpan<ulong> state, int blocks)
    {
        Span<ulong> current = stackalloc ulong[4];
        state.CopyTo(current);
        Span<ulong> lanes = stackalloc ulong[4 * Lanes];
        var generators = new TrialRandom[blocks];
        for (var block = 0; block < blocks; block++)
        {
            for (var lane = 0; lane < Lanes; lane++)
            {
                for (var word = 0; word < 4; word++)
                {
                    lanes[(word * Lanes) + lane] = current[word];
                }

                Leap(current);
            }

            generators[block] = new TrialRandom(lanes[..4], lanes[4..8], lanes[8..12], lanes[12..]);
        }

        return generators;
    }

    /// <summary>The next 64 bits of each stream.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<ulong> Next()
    {
        var result = Turn(_s0 + _s3, 23) + _s0;
        var shifted = Vector256.ShiftLeft(_s1, 17);
        _s2 ^= _s0;
        _s3 ^= _s1;
        _s1 ^= _s2;
        _s0 ^= _s3;
        _s2 ^= shifted;
        _s3 = Turn(_s3, 45);
        return result;
    }

    /// <summary>The next 64 bits of each stream as two whole numbers of 32 bits, each with 2^52 added to it, so that a difference of two is exact.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector256<double> Low, Vector256<double> High) Halves()
    {
        var bits = Next();
        return (
            ((bits & Vector256.Create(0xFFFF_FFFFUL)) | Vector256.Create(WholeBits)).AsDouble(),
            (Vector256.ShiftRightLogical(bits, 32) | Vector256.Create(WholeBits)).AsDouble());
    }

    private static Vector256<ulong> Turn(Vector256<ulong> value, int by) => Vector256.ShiftLeft(value, by) | Vector256.ShiftRightLogical(value, 64 - by);

    private static void Leap(Span<ulong> state)
    {
        Span<ulong> sum = stackalloc ulong[4];
        sum.Clear();
        for (var bit = 0; bit < 256; bit++)
        {
            if ((Jump[bit / 64] >> (bit % 64) & 1) == 1)
            {
                for (var word = 0; word < 4; word++)
                {
                    sum[word] ^= state[word];
                }
            }

            Step(state);
        }

        sum.CopyTo(state);
    }

    private static void Step(Span<ulong> state)
    {
        var shifted = state[1] << 17;
        state[2] ^= state[0];
        state[3] ^= state[1];
        state[1] ^= state[2];
        state[0] ^= state[3];
        state[2] ^= shifted;
        state[3] = ulong.RotateLeft(state[3], 45);
    }

    private static ulong Spread(ref ulong state)
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var mixed = (state ^ (state >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            return mixed ^ (mixed >> 31);
        }
    }
}

using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>The percentages of stored distributions, one column an aperture, filled up to whole words of 64 distributions.</summary>
internal sealed class StoredColumns
{
    private readonly double[][] _percent;

    public StoredColumns(IReadOnlyList<Aperture> apertures, IReadOnlyList<double[]> percent, Interpolation interpolation)
    {
        (Apertures, Rows, Interpolation) = ([.. apertures], percent[0].Length, interpolation);
        _percent = [.. percent.Select(column =>
        {
            var filled = new double[Words * RowBits.InWord];
            column.CopyTo(filled, 0);
            return filled;
        })];
        Sizes = [.. apertures.Select(aperture => aperture.ToMicrometres())];
        Abscissas = interpolation == Interpolation.LogLinear ? Array.ConvertAll(Sizes, NaturalLogarithm.Of) : Sizes;
    }

    public Aperture[] Apertures { get; }

    public Interpolation Interpolation { get; }

    public int Rows { get; }

    public int Words => (Rows + RowBits.InWord - 1) / RowBits.InWord;

    /// <summary>In µm.</summary>
    public double[] Sizes { get; }

    /// <summary>Over which the curve is straight between two points: ln x or x.</summary>
    public double[] Abscissas { get; }

    /// <summary>The percentages at an aperture of the 64 distributions of a word.</summary>
    public ReadOnlySpan<Vector256<double>> Word(int aperture, int word) =>
        MemoryMarshal.Cast<double, Vector256<double>>(_percent[aperture].AsSpan(word * RowBits.InWord, RowBits.InWord));

    public static void Check(IReadOnlyList<Aperture> apertures, IReadOnlyList<double[]> percent)
    {
        if (apertures.Count == 0 || percent.Count != apertures.Count || percent.Any(column => column is null || column.Length == 0 || column.Length != percent[0].Length))
        {
            throw new ArgumentException("Each aperture has one column, and all columns are as long, with one percentage or more.", nameof(percent));
        }

        for (var i = 0; i < apertures.Count; i++)
        {
            if (i > 0 && apertures[i] <= apertures[i - 1])
            {
                throw new ArgumentException("Each aperture is coarser than the one before.", nameof(apertures));
            }

            Check(percent[i], i > 0 ? percent[i - 1] : null);
        }
    }

    private static void Check(double[] column, double[]? before)
    {
        for (var row = 0; row < column.Length; row++)
        {
            if (!(column[row] >= (before?[row] ?? 0) && column[row] <= 100))
            {
                throw new ArgumentException($"The percentages of distribution {row} lie between 0 and 100 % and do not decrease from one aperture to the next.", nameof(column));
            }
        }
    }
}

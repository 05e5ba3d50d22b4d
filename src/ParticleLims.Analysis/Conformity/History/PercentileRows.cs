using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>
/// A limit on a percentile, without computing it: the size of which p % are finer is at most U where at least p % pass U, and at least L where no more than p % pass L and less than p % pass the
/// aperture before it. Where p % lie outside the measured apertures the bound alone decides or not.
/// </summary>
internal sealed class PercentileRows : RowRule
{
    private readonly StoredColumns _columns;
    private readonly double _percent;
    private readonly Edge _lower;
    private readonly Edge _upper;
    private readonly Verdict _below;
    private readonly Verdict _above;

    public PercentileRows(StoredColumns columns, StoredLimit limit)
    {
        _columns = columns;
        _percent = Number(limit.Limit.Percent.GetValueOrDefault());
        var (lower, upper) = Accepted(limit);
        (_lower, _upper) = (Edge.Of(columns, lower), Edge.Of(columns, upper));
        _below = OfBound(limit, CharacteristicValue.BelowOf(Ratio.FromDouble(columns.Sizes[0]), false, true));
        _above = OfBound(limit, CharacteristicValue.AboveOf(Ratio.FromDouble(columns.Sizes[^1]), false, true));
    }

    /// <summary>The part of the segment before a point at which a size in µm lies.</summary>
    public static double Part(StoredColumns columns, int point, double size)
    {
        var (low, high) = (columns.Sizes[point - 1], columns.Sizes[point]);
        return columns.Interpolation == Interpolation.LogLinear
            ? NaturalLogarithm.Of(size / low) / NaturalLogarithm.Of(high / low)
            : (size - low) / (high - low);
    }

    public override (ulong Conform, ulong Undecided) Word(int word)
    {
        var percent = Vector256.Create(_percent);
        var finest = _columns.Word(0, word);
        var coarsest = _columns.Word(_columns.Sizes.Length - 1, word);
        ulong conform = 0, undecided = 0;
        for (var i = 0; i < Vectors; i++)
        {
            var below = Vector256.LessThan(percent, finest[i]);
            var above = Vector256.GreaterThan(percent, coarsest[i]);
            var inside = ~(below | above) & AtLeastLower(word, i, percent) & AtMostUpper(word, i, percent);
            conform |= Bits(inside | (below & Mask(_below == Verdict.Conforms)) | (above & Mask(_above == Verdict.Conforms)), i);
            undecided |= Bits((below & Mask(_below == Verdict.Undecided)) | (above & Mask(_above == Verdict.Undecided)), i);
        }

        return (conform, undecided);
    }

    private Vector256<double> AtLeastLower(int word, int i, Vector256<double> percent)
    {
        // At the finest aperture or below it every percentile inside the apertures is coarser or the same.
        if (_lower.Point == 0)
        {
            return Mask(true);
        }

        if (_lower.Point == _columns.Sizes.Length)
        {
            return Mask(false);
        }

        var before = _columns.Word(_lower.Point - 1, word)[i];
        return Vector256.LessThan(before, percent) & Vector256.LessThanOrEqual(_lower.Passing(before, _columns.Word(_lower.Point, word)[i]), percent);
    }

    private Vector256<double> AtMostUpper(int word, int i, Vector256<double> percent)
    {
        if (_upper.Point == _columns.Sizes.Length)
        {
            return Mask(true);
        }

        if (_upper.Point == 0 && _upper.Part < 1)
        {
            return Mask(false);
        }

        var at = _columns.Word(_upper.Point, word)[i];
        return Vector256.GreaterThanOrEqual(_upper.Point == 0 ? at : _upper.Passing(_columns.Word(_upper.Point - 1, word)[i], at), percent);
    }

    /// <summary>Where a size lies: the first point at or above it, none being the number of points, and the part of the segment before that point.</summary>
    private sealed record Edge(int Point, double Part)
    {
        public static Edge Of(StoredColumns columns, double size)
        {
            var point = Array.FindIndex(columns.Sizes, one => one >= size);
            if (point < 0)
            {
                return new Edge(columns.Sizes.Length, 1);
            }

            var isPoint = columns.Sizes[point] == size;
            return new Edge(point, isPoint ? 1 : point == 0 ? 0 : PercentileRows.Part(columns, point, size));
        }

        public Vector256<double> Passing(Vector256<double> before, Vector256<double> at) =>
            Part == 1 ? at : Vector256.Min(Vector256.Max(before + ((at - before) * Part), before), at);
    }
}

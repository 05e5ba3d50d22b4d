using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>
/// A limit on what passes or is retained at an aperture. Retained from 25 to 30 % is passing from 70 to 75 %, which is taken off in decimals. Below the finest aperture from nothing to what passes
/// there is possible, above the coarsest from what passes there to all.
/// </summary>
internal sealed class PassingRows : RowRule
{
    private readonly StoredColumns _columns;
    private readonly double _lower;
    private readonly double _upper;
    private readonly int _at;
    private readonly double _part;

    public PassingRows(StoredColumns columns, StoredLimit limit)
    {
        var aperture = limit.Limit.Aperture.GetValueOrDefault();
        _columns = columns;
        (_lower, _upper) = AcceptedPassing(limit);
        _at = Array.FindIndex(columns.Apertures, one => one >= aperture);
        _part = _at > 0 ? PartAt(columns, _at, aperture) : 1;
        IsBelow = aperture < columns.Apertures[0];
    }

    private bool IsBelow { get; }

    public override (ulong Conform, ulong Undecided) Word(int word)
    {
        var (lower, upper) = (Vector256.Create(_lower), Vector256.Create(_upper));
        ulong conform = 0, undecided = 0;
        for (var i = 0; i < Vectors; i++)
        {
            var (low, high) = Possible(word, i);
            var inside = Vector256.GreaterThanOrEqual(low, lower) & Vector256.LessThanOrEqual(high, upper);
            var outside = Vector256.LessThan(high, lower) | Vector256.GreaterThan(low, upper);
            conform |= Bits(inside, i);
            undecided |= Bits(~(inside | outside), i);
        }

        return (conform, undecided);
    }

    private (Vector256<double> Low, Vector256<double> High) Possible(int word, int i)
    {
        if (_at < 0)
        {
            return (_columns.Word(_columns.Apertures.Length - 1, word)[i], Vector256.Create(100.0));
        }

        var at = _columns.Word(_at, word)[i];
        if (IsBelow)
        {
            return (Vector256<double>.Zero, at);
        }

        if (_part == 1)
        {
            return (at, at);
        }

        var before = _columns.Word(_at - 1, word)[i];
        var within = Vector256.Min(Vector256.Max(before + ((at - before) * _part), before), at);
        return (within, within);
    }

    /// <summary>The part of the segment before a point at which an aperture lies; 1 at the point itself.</summary>
    private static double PartAt(StoredColumns columns, int point, Aperture aperture)
    {
        if (columns.Apertures[point] == aperture)
        {
            return 1;
        }

        var size = aperture.ToMicrometres();
        return PercentileRows.Part(columns, point, size);
    }

    private static (double Lower, double Upper) AcceptedPassing(StoredLimit limit)
    {
        if (limit.Limit.Characteristic == Characteristic.Passing)
        {
            return Accepted(limit);
        }

        if (limit.Limit.Rule == DecisionRule.Simple)
        {
            return (
                limit.Limit.Upper is { } most ? Number(100 - most) : double.NegativeInfinity,
                limit.Limit.Lower is { } least ? Number(100 - least) : double.PositiveInfinity);
        }

        var (lower, upper) = Accepted(limit);
        return (100 - upper, 100 - lower);
    }
}

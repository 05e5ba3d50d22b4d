using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>A limit on the span (D90 - D10)/D50. Where one of the three lies outside the measured apertures the span is only known to be greater than what is measured.</summary>
internal sealed class SpanRows : RowRule
{
    private const double Fine = 10;
    private const double Middle = 50;
    private const double Coarse = 90;

    private readonly StoredColumns _columns;
    private readonly double _lower;
    private readonly double _upper;
    private readonly bool _boundIsOpen;

    public SpanRows(StoredColumns columns, StoredLimit limit)
    {
        _columns = columns;
        (_lower, _upper) = Accepted(limit);
        _boundIsOpen = limit.Limit.Rule == DecisionRule.Simple;
    }

    public override (ulong Conform, ulong Undecided) Word(int word)
    {
        var (lower, upper) = (Vector256.Create(_lower), Vector256.Create(_upper));
        var finest = _columns.Word(0, word);
        var coarsest = _columns.Word(_columns.Sizes.Length - 1, word);
        ulong conform = 0, undecided = 0;
        for (var i = 0; i < Vectors; i++)
        {
            var span = Span(word, i);
            var known = Vector256.LessThanOrEqual(finest[i], Vector256.Create(Fine)) & Vector256.GreaterThanOrEqual(coarsest[i], Vector256.Create(Coarse));
            var above = Vector256.GreaterThanOrEqual(span, lower);
            var atMost = Vector256.LessThanOrEqual(span, upper);
            var inside = above & ((known & atMost) | Mask(double.IsPositiveInfinity(_upper)));
            var beyond = _boundIsOpen ? Vector256.GreaterThanOrEqual(span, upper) : Vector256.GreaterThan(span, upper);
            conform |= Bits(inside, i);
            undecided |= Bits(~(known | inside | beyond), i);
        }

        return (conform, undecided);
    }

    private Vector256<double> Span(int word, int i)
    {
        var (fine, middle, coarse) = (At(Fine, word, i), At(Middle, word, i), At(Coarse, word, i));
        return _columns.Interpolation == Interpolation.LogLinear
            ? VectorFunctions.Exp(coarse - middle) - VectorFunctions.Exp(fine - middle)
            : (coarse - fine) / middle;
    }

    /// <summary>The abscissa of a percentile; beyond the measured apertures that of the end.</summary>
    private Vector256<double> At(double percent, int word, int i)
    {
        var asked = Vector256.Create(percent);
        var (low, high) = (_columns.Word(0, word)[i], _columns.Word(0, word)[i]);
        var (from, until) = (Vector256.Create(_columns.Abscissas[0]), Vector256.Create(_columns.Abscissas[0]));
        for (var point = 1; point < _columns.Sizes.Length; point++)
        {
            var past = Vector256.LessThan(high, asked);
            (low, from) = (Vector256.ConditionalSelect(past, high, low), Vector256.ConditionalSelect(past, until, from));
            high = Vector256.ConditionalSelect(past, _columns.Word(point, word)[i], high);
            until = Vector256.ConditionalSelect(past, Vector256.Create(_columns.Abscissas[point]), until);
        }

        var within = from + ((asked - low) / (high - low) * (until - from));
        return Vector256.ConditionalSelect(Vector256.LessThan(low, asked) & Vector256.GreaterThanOrEqual(high, asked), within, until);
    }
}

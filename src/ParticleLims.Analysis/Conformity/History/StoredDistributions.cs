using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>
/// Many stored distributions over the same apertures, held against limits at once: what would a draft specification have said of a product's history (docs/science/judging-history.md)? The
/// verdicts are those of an evaluation, in doubles (docs/science/speed.md tells how fast).
/// </summary>
public sealed class StoredDistributions
{
    private const int WordsInBlock = 64;

    private readonly StoredColumns _columns;

    /// <summary>Takes over percentages passing, in percent (%).</summary>
    /// <param name="apertures">The apertures, each coarser than the one before.</param>
    /// <param name="passingPercent">For each aperture one column with as many percentages as there are distributions, 0 to 100 %; in none they decrease from one aperture to the next.</param>
    /// <param name="interpolation">How each curve runs between its points: straight in ln x or in x.</param>
    /// <exception cref="ArgumentException">Apertures or percentages are not so.</exception>
    public StoredDistributions(IReadOnlyList<Aperture> apertures, IReadOnlyList<double[]> passingPercent, Interpolation interpolation = Interpolation.LogLinear)
    {
        ArgumentNullException.ThrowIfNull(apertures);
        ArgumentNullException.ThrowIfNull(passingPercent);
        if (interpolation is not (Interpolation.Linear or Interpolation.LogLinear))
        {
            throw new ArgumentException("A history is read straight in ln x or in x.", nameof(interpolation));
        }

        StoredColumns.Check(apertures, passingPercent);
        _columns = new StoredColumns(apertures, passingPercent, interpolation);
    }

    /// <summary>How many distributions there are, without unit.</summary>
    public int Count => _columns.Rows;

    /// <summary>Holds every distribution against limits.</summary>
    /// <param name="limits">One or more.</param>
    /// <param name="forEach">Who does the blocks; null for one after the other. The answer is the same.</param>
    /// <exception cref="ArgumentException">There is no limit, or one is incomplete, or of another kind than these can be held against.</exception>
    public StoredVerdicts Judge(IReadOnlyList<StoredLimit> limits, ForEachBlock? forEach = null)
    {
        ArgumentNullException.ThrowIfNull(limits);
        Check(limits);
        var words = _columns.Words;
        var rules = limits.Select(limit => RowRule.Of(_columns, limit)).ToArray();
        var bits = limits.Select(_ => RowBits.Room(words)).ToArray();
        var blocks = (words + WordsInBlock - 1) / WordsInBlock;
        (forEach ?? OneAfterTheOther)(blocks, block => Block(rules, bits, block * WordsInBlock, Math.Min(words, (block + 1) * WordsInBlock)));
        return new StoredVerdicts(Count, bits);
    }

    private static void Block(RowRule[] rules, RowBits[] bits, int from, int until)
    {
        for (var i = 0; i < rules.Length; i++)
        {
            for (var word = from; word < until; word++)
            {
                (bits[i].Conform[word], bits[i].Undecided[word]) = rules[i].Word(word);
            }
        }
    }

    private static void OneAfterTheOther(int count, Action<int> work)
    {
        for (var i = 0; i < count; i++)
        {
            work(i);
        }
    }

    private static void Check(IReadOnlyList<StoredLimit> limits)
    {
        var log = new FindingLog();
        LimitCheck.Run([.. limits.Select(limit => limit.Limit)], log);
        if (limits.Count == 0 || log.HasRefusal)
        {
            throw new ArgumentException(limits.Count == 0 ? "There is no limit." : log.Refusals[0].Message, nameof(limits));
        }

        if (limits.Any(limit => limit.Limit.Characteristic is not (Characteristic.Percentile or Characteristic.Passing or Characteristic.Retained or Characteristic.Span)
            || limit.Limit.Rule == DecisionRule.FourState || !(limit.ExpandedUncertainty >= 0 && double.IsFinite(limit.ExpandedUncertainty))))
        {
            throw new ArgumentException("A history is held against percentiles, percentages and the span, by simple or guarded acceptance with an uncertainty of zero or more.", nameof(limits));
        }
    }
}

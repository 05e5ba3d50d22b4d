using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>
/// The arithmetic mean of replicates. If any replicate lies below or above a bound, so does the mean of the numbers reported;
/// with some below and some above, or one missing, there is no mean (docs/science/replicate-mean.md).
/// </summary>
internal static class ReplicateMean
{
    public static CharacteristicValue? Of(IReadOnlyList<CharacteristicValue?> replicates)
    {
        var values = replicates.OfType<CharacteristicValue>().ToList();
        var below = values.Exists(value => value.Relation == Relation.Below);
        var above = values.Exists(value => value.Relation == Relation.Above);
        if (values.Count == 0 || values.Count < replicates.Count || (below && above))
        {
            return null;
        }

        return new CharacteristicValue
        {
            Low = Mean(values, value => value.Low),
            LowIsOpen = values.Exists(value => value.LowIsOpen),
            High = Mean(values, value => value.High),
            HighIsOpen = values.Exists(value => value.HighIsOpen),
            IsExact = values.TrueForAll(value => value.IsExact),
            Relation = below ? Relation.Below : above ? Relation.Above : Relation.Equal,
            Reported = Mean(values, value => value.Reported).GetValueOrDefault(),
        };
    }

    /// <summary>Whether the replicates are known to span more than the repeatability limit.</summary>
    public static bool AreApart(IReadOnlyList<CharacteristicValue?> replicates, decimal repeatabilityLimit)
    {
        var values = replicates.OfType<CharacteristicValue>().ToList();
        if (values.Count < 2)
        {
            return false;
        }

        var lows = values.Where(value => value.Low is not null).Select(value => value.Low.GetValueOrDefault()).ToList();
        var highs = values.Where(value => value.High is not null).Select(value => value.High.GetValueOrDefault()).ToList();
        return lows.Count > 0 && highs.Count > 0 && lows.Max() - highs.Min() > Ratio.FromDecimal(repeatabilityLimit);
    }

    /// <summary>Exact, so that the order of the replicates does not matter; doubles are rounded once at the end.</summary>
    private static Ratio? Mean(List<CharacteristicValue> values, Func<CharacteristicValue, Ratio?> member)
    {
        var sum = Ratio.Zero;
        foreach (var value in values)
        {
            if (member(value) is not { } number)
            {
                return null;
            }

            sum += number;
        }

        var mean = sum / Ratio.Of(values.Count, 1);
        return values.TrueForAll(value => value.IsExact) ? mean : Ratio.FromDouble(mean.ToDouble());
    }
}

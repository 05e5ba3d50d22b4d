using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>With which check weights a balance is checked, and which of them a scanned label names.</summary>
public static class CheckWeightScan
{
    /// <summary>The weights with which a balance can be checked on that day: of its nominal mass, in service, their certificate counting.</summary>
    /// <param name="weights">All check weights.</param>
    /// <param name="balance">The balance that is checked.</param>
    /// <param name="today">The laboratory's day.</param>
    public static IReadOnlyList<CheckWeight> For(IReadOnlyList<CheckWeight> weights, Balance balance, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(weights);
        ArgumentNullException.ThrowIfNull(balance);
        return [.. weights.Where(weight => weight.Nominal == balance.CheckWeight && weight.UnfitReason(today) is null)];
    }

    /// <summary>The one weight that it can be; null where there is none or a choice between several, because only the person at the balance sees which lies there.</summary>
    public static CheckWeight? Obvious(IReadOnlyList<CheckWeight> weights, Balance balance, DateOnly today) => For(weights, balance, today) is [var only] ? only : null;

    /// <summary>The weight with that number, if the balance is checked with such a one and it may be used on that day.</summary>
    /// <param name="weights">All check weights.</param>
    /// <param name="balance">The balance that is checked.</param>
    /// <param name="code">What the scanner read.</param>
    /// <param name="today">The laboratory's day.</param>
    /// <exception cref="RefusedException">It is none, another one, or not fit for use; says which to take.</exception>
    public static CheckWeight Find(IReadOnlyList<CheckWeight> weights, Balance balance, string code, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(weights);
        ArgumentNullException.ThrowIfNull(balance);
        ArgumentNullException.ThrowIfNull(code);
        var read = code.Trim();
        var weight = weights.FirstOrDefault(one => one.Serial == read) ?? weights.FirstOrDefault(one => string.Equals(one.Serial, read, StringComparison.OrdinalIgnoreCase))
            ?? throw new RefusedException("code-unknown", $"“{(read.Length > 40 ? read[..40] + "…" : read)}” is no check weight of this laboratory. The {balance.Label} is checked with {balance.CheckWeight}.", "weight");
        if (weight.Nominal != balance.CheckWeight)
        {
            throw new RefusedException("weight-other", $"The {balance.Label} is checked with {balance.CheckWeight}, not with the {weight.Label}. Take the right one.", "weight");
        }

        return weight.UnfitReason(today) is { } unfit ? throw new RefusedException("weight-unfit", unfit, "weight") : weight;
    }
}

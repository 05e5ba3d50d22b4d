using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>Which check weight a scanned label names for the daily check of a balance.</summary>
public static class CheckWeightScan
{
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

using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A reading as it came from a balance.</summary>
/// <param name="BalanceId">Which balance.</param>
/// <param name="Mass">The parsed mass.</param>
/// <param name="Decimals">The decimals of a gram that the display showed.</param>
/// <param name="Stable">Whether the balance called it stable.</param>
/// <param name="RawLine">The line as it came, kept next to the parsed value.</param>
/// <param name="At">When the line came.</param>
public sealed record BalanceReading(Guid BalanceId, Mass Mass, int Decimals, bool Stable, string RawLine, DateTimeOffset At)
{
    /// <summary>By which way it came in.</summary>
    public WayIn WayIn { get; init; }

    /// <summary>A reading older than this is not what lies on the pan now.</summary>
    public static readonly TimeSpan Freshness = TimeSpan.FromSeconds(30);

    /// <summary>Refuses a reading that is not stable, not fresh, beyond what the balance can weigh, or from another balance.</summary>
    /// <exception cref="RefusedException">Says which.</exception>
    public void RequireUsable(Balance expected, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(expected);
        if (BalanceId != expected.Id)
        {
            throw new RefusedException("other-balance", "This reading came from another balance than the one of the run. Use the run's balance.");
        }

        if (WayIn != expected.WayIn && WayIn != WayIn.KeyedByHand)
        {
            throw new RefusedException("other-way", $"This reading came in another way ({WayIn.Words()}) than the {expected.Label} is registered with ({expected.WayIn.Words()}). Open the page again.");
        }

        if (!Stable)
        {
            throw new RefusedException("reading-unstable", "The reading was not stable. Wait until the balance rests; close the draught shield.");
        }

        RequireWithinCapacity(expected, Mass);
        if (now - At > Freshness || At - now > Freshness)
        {
            throw new RefusedException("reading-old", "The last reading is too old to be what lies on the pan now. Check the link to the balance and weigh again.");
        }
    }

    /// <summary>Refuses a mass beyond the balance's capacity.</summary>
    /// <exception cref="RefusedException">The pan carries too much.</exception>
    public static void RequireWithinCapacity(Balance balance, Mass mass)
    {
        ArgumentNullException.ThrowIfNull(balance);
        if (mass > balance.Capacity)
        {
            throw new RefusedException("overload", $"The balance shows {mass}, more than its capacity of {balance.Capacity}. Take the load off at once; use a balance that carries it.", "reading");
        }
    }
}

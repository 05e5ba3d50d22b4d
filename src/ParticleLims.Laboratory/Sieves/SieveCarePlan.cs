using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>How often a sieve is looked at and checked with a reference material, and how much its empty mass scatters.</summary>
/// <param name="InspectEveryDays">Days from one look to the next, 1 to 1100.</param>
/// <param name="InspectEveryRuns">Runs from one look to the next, 1 to 10 000; null where only the days count.</param>
/// <param name="TareScatter">The standard deviation of its empty mass, cleaning included, 0.1 mg to 1 g.</param>
public sealed record SieveCarePlan(int InspectEveryDays, int? InspectEveryRuns, Mass TareScatter)
{
    /// <summary>Days from one check with a reference material to the next, 1 to 1100; null where days do not count.</summary>
    public int? ReferenceEveryDays { get; init; }

    /// <summary>Runs from one check with a reference material to the next, 1 to 10 000; null where runs do not count.</summary>
    public int? ReferenceEveryRuns { get; init; }

    /// <summary>A year, where nothing else is written (common practice, no source).</summary>
    public const int UsualDays = 365;

    /// <summary>3 mg: a brushed sieve of 200 mm on a balance of 1 mg (own estimate, no source; each laboratory sets its own).</summary>
    public static Mass UsualTareScatter { get; } = Mass.FromMicrograms(3_000);

    /// <summary>Refuses numbers with which nothing would ever be looked at, or everything always.</summary>
    /// <exception cref="RefusedException">Says which.</exception>
    public void Check()
    {
        if (InspectEveryDays is < 1 or > 1_100 || InspectEveryRuns is < 1 or > 10_000)
        {
            throw new RefusedException("interval", "A sieve is looked at after 1 to 1100 days, and after 1 to 10000 runs where runs count.", "interval");
        }

        if (ReferenceEveryDays is < 1 or > 1_100 || ReferenceEveryRuns is < 1 or > 10_000)
        {
            throw new RefusedException("reference-interval", "A sieve is checked with a reference material after 1 to 1100 days, after 1 to 10000 runs, after whichever comes first, or by no interval.", "referenceInterval");
        }

        if (TareScatter.Micrograms is < 100 or > 1_000_000)
        {
            throw new RefusedException("tare-scatter", "The scatter of the empty mass lies between 0.1 mg and 1 g.", "tareScatter");
        }
    }

    /// <summary>Has a sieve looked after so. The check with a reference material counts from the last one that was passed, or from when it was first asked.</summary>
    internal void PutOn(TestSieve sieve, DateTimeOffset now)
    {
        Check();
        (sieve.InspectEveryDays, sieve.InspectEveryRuns, sieve.TareScatter) = (InspectEveryDays, InspectEveryRuns, TareScatter);
        (sieve.ReferenceEveryDays, sieve.ReferenceEveryRuns) = (ReferenceEveryDays, ReferenceEveryRuns);
        sieve.ReferenceFrom = ReferenceEveryDays is null && ReferenceEveryRuns is null ? null : sieve.ReferenceFrom ?? now;
    }
}

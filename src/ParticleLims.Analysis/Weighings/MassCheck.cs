using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>Refuses a mass that is missing, out of place, below zero or beyond one tonne.</summary>
internal static class MassCheck
{
    private static readonly Mass Heaviest = Mass.FromGrams(1_000_000m);

    public static void Needed(Mass? mass, string what, string member, FindingLog log)
    {
        if (mass is null)
        {
            log.Refuse(FindingCodes.MassMissing, $"{what} was not weighed: its mass is missing.", member);
        }
        else
        {
            Range(mass.GetValueOrDefault(), what, member, log);
        }
    }

    public static void Allowed(Mass? mass, bool hasMeaning, string what, string member, FindingLog log)
    {
        if (mass is not { } given)
        {
            return;
        }

        if (!hasMeaning)
        {
            log.Refuse(FindingCodes.NotApplicable, $"{what} has no meaning for this procedure.", member);
        }
        else
        {
            Range(given, what, member, log);
        }
    }

    private static void Range(Mass mass, string what, string member, FindingLog log)
    {
        if (mass < Mass.Zero)
        {
            log.Refuse(FindingCodes.MassNegative, $"{what} weighs {mass}: a mass is not negative.", member);
        }
        else if (mass > Heaviest)
        {
            log.Refuse(FindingCodes.MassTooLarge, $"{what} weighs {mass}: more than {Heaviest} is not a weighing on a test sieve.", member);
        }
    }
}

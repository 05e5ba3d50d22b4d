using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Refuses a cut whose members do not fit the procedure.</summary>
internal static class CutCheck
{
    public static void Run(EvaluationRequest request, FindingLog log)
    {
        for (var i = 0; i < request.Cuts.Count; i++)
        {
            var cut = request.Cuts[i];
            if (request.Procedure == Procedure.GivenDistribution)
            {
                Given(new OrderedCut(i, cut) { UsedAperture = cut.Aperture }, log);
            }
            else
            {
                Weighed(new OrderedCut(i, cut) { UsedAperture = cut.Aperture }, request.Procedure, NeedsLoaded(request, cut), log);
            }
        }
    }

    /// <summary>Separate portions are weighed on each sieve, a carried residue at least on the finest.</summary>
    private static bool NeedsLoaded(EvaluationRequest request, CutInput cut) => request.Procedure switch
    {
        Procedure.SeparatePortions => true,
        Procedure.CarriedResidue => request.Cuts.All(other => other.Aperture >= cut.Aperture),
        _ => false,
    };

    private static void Weighed(OrderedCut cut, Procedure procedure, bool needsLoaded, FindingLog log)
    {
        var sieve = $"sieve {cut.Aperture}";
        MassCheck.Needed(cut.Input.Empty, "The empty " + sieve, cut.Member("emptyGrams"), log);
        MassCheck.Needed(cut.Input.After, $"The {sieve} after sieving", cut.Member("afterGrams"), log);
        var loaded = "The loaded " + sieve;
        if (needsLoaded)
        {
            MassCheck.Needed(cut.Input.Loaded, loaded, cut.Member("loadedGrams"), log);
        }
        else
        {
            MassCheck.Allowed(cut.Input.Loaded, procedure == Procedure.CarriedResidue, loaded, cut.Member("loadedGrams"), log);
        }

        MassCheck.Allowed(cut.Input.LastIntervalChange, true, "The change in the last sieving interval at " + sieve, cut.Member("lastIntervalChangeGrams"), log);
        if (cut.Input.PassingPercent is not null)
        {
            log.Refuse(FindingCodes.NotApplicable, "A percentage passing is given only where nothing was weighed.", cut.Member("passingPercent"));
        }
    }

    private static void Given(OrderedCut cut, FindingLog log)
    {
        MassCheck.Allowed(cut.Input.Empty, false, "The empty sieve", cut.Member("emptyGrams"), log);
        MassCheck.Allowed(cut.Input.Loaded, false, "The loaded sieve", cut.Member("loadedGrams"), log);
        MassCheck.Allowed(cut.Input.After, false, "The sieve after sieving", cut.Member("afterGrams"), log);
        MassCheck.Allowed(cut.Input.LastIntervalChange, false, "The change in the last sieving interval", cut.Member("lastIntervalChangeGrams"), log);
        if (cut.Input.PassingPercent is null)
        {
            log.Refuse(FindingCodes.PassingMissing, $"The percentage passing {cut.Aperture} is missing.", cut.Member("passingPercent"));
        }
        else if (cut.Input.PassingPercent is not (>= 0m and <= 100m))
        {
            log.Refuse(FindingCodes.PercentOutsideRange, $"The percentage passing {cut.Aperture} lies between 0 % and 100 %.", cut.Member("passingPercent"));
        }
    }
}

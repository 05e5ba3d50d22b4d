using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Refuses uncertainties that are none, or that are given for some cuts only: then no weights follow from them.</summary>
internal static class UncertaintyCheck
{
    private const decimal Least = 0.000_001m;
    private const int LeastTrials = 10_000;
    private const int MostTrials = 10_000_000;
    private const int MostTogether = 8;

    /// <summary>Every trial of every characteristic is kept until the intervals are known, eight bytes each: half a gigabyte at most.</summary>
    private const long MostTrialsOfAll = 8_000_000;
    private static readonly Mass MostMass = Mass.FromGrams(1_000m);

    public static void Run(EvaluationRequest request, FindingLog log)
    {
        var given = request.Cuts.Count(cut => cut.PassingStandardUncertaintyPercent is not null);
        for (var i = 0; i < request.Cuts.Count && given > 0; i++)
        {
            Percentage(request, request.Cuts[i].PassingStandardUncertaintyPercent, $"cuts[{i}].passingStandardUncertaintyPercent", log);
        }

        for (var i = 0; i < request.Cuts.Count; i++)
        {
            Apertures(request.Cuts[i], $"cuts[{i}].apertureStandardUncertaintyMicrometres", log);
        }

        if (request.Uncertainty is { } input)
        {
            Input(request, input, log);
        }
    }

    private static void Percentage(EvaluationRequest request, decimal? percent, string member, FindingLog log)
    {
        if (request.Procedure != Procedure.GivenDistribution)
        {
            if (percent is not null)
            {
                log.Refuse(FindingCodes.NotApplicable, "The uncertainty of a percentage is given only where nothing was weighed.", member);
            }
        }
        else if (percent is null)
        {
            log.Refuse(FindingCodes.QuantityOutsideRange, "The uncertainty of the percentage is given for other cuts, but not for this one: give it for each or for none.", member);
        }
        else if (percent is not (>= Least and <= 100m))
        {
            log.Refuse(FindingCodes.QuantityOutsideRange, "The standard uncertainty of a percentage lies above zero and is at most 100 %.", member);
        }
    }

    /// <summary>More than a third of the aperture is no uncertainty of a sieve, and would draw apertures below zero.</summary>
    private static void Apertures(CutInput cut, string member, FindingLog log)
    {
        if (cut.ApertureStandardUncertainty is { } u && (u.Nanometres <= 0 || u.Nanometres > cut.Aperture.Nanometres / 3))
        {
            log.Refuse(FindingCodes.QuantityOutsideRange, "The standard uncertainty of an aperture lies above zero and is at most a third of the aperture.", member);
        }
    }

    private static void Input(EvaluationRequest request, UncertaintyInput input, FindingLog log)
    {
        Term(input.BalanceRepeatability, "balanceRepeatabilityGrams", log);
        Term(input.Readability, "readabilityGrams", log);
        Term(input.Linearity, "linearityGrams", log);
        Term(input.EmptyDrift, "emptyDriftGrams", log);
        Within(input.PortionStandardUncertaintyPercent is >= 0m and <= 50m, "The uncertainty from taking the test portion lies between 0 and 50 %.", "portionStandardUncertaintyPercent", log);
        Within(input.Coverage is >= 0.5m and <= 0.999m, "The coverage probability lies between 0.5 and 0.999.", "coverage", log);
        Within(input.Trials is >= LeastTrials and <= MostTrials, $"Between {LeastTrials} and {MostTrials} trials can be made.", "trials", log);
        Within(input.StableDigits is null or 1 or 2, "The trials can be stable to 1 or 2 significant digits.", "stableDigits", log);
        if (!Enum.IsDefined(input.Method))
        {
            log.Refuse(FindingCodes.UnknownChoice, "This is none of the named choices.", "uncertainty.method");
        }

        var times = (request.Settings.Percentiles.Count + request.Limits.Count + MostTogether - 1L) / MostTogether;
        if (input.Method == UncertaintyMethod.MonteCarlo && times * input.Trials > MostTrialsOfAll)
        {
            log.Refuse(FindingCodes.TooMany, $"So many trials of so many characteristics would take too long: at most {MostTrialsOfAll / Math.Max(1, times)} trials for these.", "uncertainty.trials");
        }
    }

    private static void Term(Mass mass, string member, FindingLog log) =>
        Within(mass >= Mass.Zero && mass <= MostMass, "A term of the weighing's uncertainty lies between 0 g and 1 000 g.", member, log);

    private static void Within(bool isWithin, string message, string member, FindingLog log)
    {
        if (!isWithin)
        {
            log.Refuse(FindingCodes.QuantityOutsideRange, message, "uncertainty." + member);
        }
    }
}

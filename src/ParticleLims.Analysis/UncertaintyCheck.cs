using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Refuses uncertainties of given percentages that are none, or that are given for some cuts only: then no weights follow from them.</summary>
internal static class UncertaintyCheck
{
    private const decimal Least = 0.000_001m;

    public static void Run(EvaluationRequest request, FindingLog log)
    {
        var given = request.Cuts.Count(cut => cut.PassingStandardUncertaintyPercent is not null);
        for (var i = 0; i < request.Cuts.Count && given > 0; i++)
        {
            Check(request, request.Cuts[i].PassingStandardUncertaintyPercent, $"cuts[{i}].passingStandardUncertaintyPercent", log);
        }
    }

    private static void Check(EvaluationRequest request, decimal? percent, string member, FindingLog log)
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
}

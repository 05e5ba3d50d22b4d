using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis;

/// <summary>Refuses, rather than leaves out, what a request may ask for and this version cannot do.</summary>
internal static class NotAvailableYet
{
    public static void Check(EvaluationRequest request, FindingLog log)
    {
        var settings = request.Settings;
        Refuse(request.Uncertainty is not null, "The uncertainty of the result", "uncertainty", log);
        Refuse(settings.Apertures == ApertureChoice.Effective, "The use of effective apertures", "settings.apertures", log);
        for (var i = 0; i < request.Cuts.Count; i++)
        {
            var cut = request.Cuts[i];
            Refuse(cut.ApertureStandardUncertainty is not null, "The uncertainty of the result", $"cuts[{i}].apertureStandardUncertaintyMicrometres", log);
        }
    }

    private static void Refuse(bool asked, string what, string member, FindingLog log)
    {
        if (asked)
        {
            log.Refuse(FindingCodes.NotAvailableYet, $"{what} is not available yet.", member);
        }
    }
}

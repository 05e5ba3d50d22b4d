using ParticleLims.Laboratory.Investigations;

namespace ParticleLims.Web.Lots;

/// <summary>Which shape and colour a chip has on a lot's page: good, wait, bad or off.</summary>
internal static class LotKinds
{
    public static string Kind(this InvestigationState state) => state == InvestigationState.Closed ? "off" : "wait";
}

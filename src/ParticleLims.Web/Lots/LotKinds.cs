using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Web.Lots;

/// <summary>Which shape and colour a state's chip has on a lot's page: good, wait, bad or off.</summary>
internal static class LotKinds
{
    public static string Kind(this LotState state) => state switch
    {
        LotState.Released => "good",
        LotState.Rejected or LotState.OnHold => "bad",
        _ => "wait",
    };

    public static string Kind(this RunState state) => state switch
    {
        RunState.Accepted => "good",
        RunState.Invalidated => "bad",
        RunState.Abandoned => "off",
        _ => "wait",
    };

    public static string Kind(this Verdict verdict) => verdict switch
    {
        Verdict.Conforms or Verdict.ConformsWithinGuardBand => "good",
        Verdict.Undecided => "wait",
        _ => "bad",
    };

    public static string Kind(this InvestigationState state) => state == InvestigationState.Closed ? "off" : "wait";

    public static string Kind(this CertificateState state) => state switch
    {
        CertificateState.Issued => "good",
        CertificateState.Withdrawn => "bad",
        _ => "off",
    };

    public static string Words(this Verdict verdict) => verdict switch
    {
        Verdict.Conforms => "conforms",
        Verdict.ConformsWithinGuardBand => "conforms, within the guard band",
        Verdict.DoesNotConformWithinGuardBand => "does not conform, within the guard band",
        Verdict.DoesNotConform => "does not conform",
        Verdict.Undecided => "undecided",
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "Not a verdict."),
    };
}

using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.Investigations;

namespace ParticleLims.Web.Investigations;

/// <summary>What a retest showed, a limit at a time.</summary>
internal static class RetestWords
{
    /// <summary>"Passing 63 µm 96.1 %, does not conform".</summary>
    public static IEnumerable<string> Of(RetestResult result) =>
        result.Limits.Select(judged => $"{judged.Limit.Words} {judged.Printed}{(judged.Limit.Unit == "1" ? string.Empty : " " + judged.Limit.Unit)}, {Words(judged.Verdict.Verdict)}");

    private static string Words(Verdict verdict) => verdict switch
    {
        Verdict.Conforms or Verdict.ConformsWithinGuardBand => "conforms",
        Verdict.DoesNotConform or Verdict.DoesNotConformWithinGuardBand => "does not conform",
        _ => "undecided",
    };
}

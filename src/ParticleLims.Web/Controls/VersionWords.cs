using System.Globalization;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Controls;

/// <summary>Versions of methods and specifications in words and chips.</summary>
public static class VersionWords
{
    /// <summary>The chip's shape: good, wait or off.</summary>
    public static string Kind(this VersionStanding standing) => standing switch
    {
        VersionStanding.InForce => "good",
        VersionStanding.Superseded => "off",
        _ => "wait",
    };

    /// <summary>Which versions wait for what; a dash when none does.</summary>
    public static string Waiting(IReadOnlyList<ControlledVersion> versions, LaboratoryClock clock)
    {
        ArgumentNullException.ThrowIfNull(clock);
        List<string> waiting =
        [
            .. from version in versions
               let words = version.StandingAt(versions, clock.Now) switch
               {
                   VersionStanding.Draft or VersionStanding.InApproval => $"is {version.State.Words()}",
                   VersionStanding.AwaitsItsDay => $"comes into force on {clock.Day(version.InForceFrom)}",
                   _ => null,
               }
               where words is not null
               orderby version.Number
               select string.Create(CultureInfo.InvariantCulture, $"version {version.Number} {words}"),
        ];
        return waiting.Count == 0 ? "–" : string.Join("; ", waiting);
    }
}

using System.Globalization;
using ParticleLims.Laboratory.Documents;

namespace ParticleLims.Web.Controls;

/// <summary>Versions of methods and specifications in words and chips.</summary>
public static class VersionWords
{
    /// <summary>The chip's shape: good, wait or off.</summary>
    public static string Kind(this DocumentState state) => state switch
    {
        DocumentState.InForce => "good",
        DocumentState.Superseded => "off",
        _ => "wait",
    };

    /// <summary>Which version waits for what; a dash when none does.</summary>
    public static string Waiting(IEnumerable<ControlledVersion> versions)
    {
        var waiting = versions.FirstOrDefault(version => version.State is DocumentState.Draft or DocumentState.InApproval);
        return waiting is null ? "–" : string.Create(CultureInfo.InvariantCulture, $"version {waiting.Number} is {waiting.State.Words()}");
    }
}

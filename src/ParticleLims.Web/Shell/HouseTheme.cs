using MudBlazor;

namespace ParticleLims.Web.Shell;

/// <summary>The house's colours and letters.</summary>
internal static class HouseTheme
{
    public static MudTheme Theme { get; } = new();
}

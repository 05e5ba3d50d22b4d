using MudBlazor;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>One entry of the navigation, shown to whoever holds the permission.</summary>
/// <param name="Words">The label.</param>
/// <param name="Address">Where it leads.</param>
/// <param name="Icon">A picture beside the word.</param>
/// <param name="Needs">The permission; null for everybody who is signed on.</param>
public sealed record NavigationEntry(string Words, string Address, string Icon, Permission? Needs);

/// <summary>The navigation: the one list.</summary>
public static class NavigationEntries
{
    /// <summary>All entries in their order.</summary>
    public static IReadOnlyList<NavigationEntry> All { get; } =
    [
        new("Today", "/", Icons.Material.Outlined.WbSunny, null),
        new("Bench", "/bench", Icons.Material.Outlined.Scale, Permission.CarryOutRuns),
        new("Lots", "/lots", Icons.Material.Outlined.Inventory2, Permission.SeeLaboratory),
        new("Review", "/review", Icons.Material.Outlined.FactCheck, Permission.ReviewRuns),
        new("Decisions", "/decisions", Icons.Material.Outlined.Gavel, Permission.DecideLots),
        new("Investigations", "/investigations", Icons.Material.Outlined.TravelExplore, Permission.SeeLaboratory),
        new("Certificates", "/certificates", Icons.Material.Outlined.Verified, Permission.SeeCertificates),
        new("Equipment", "/equipment", Icons.Material.Outlined.BlurOn, Permission.SeeLaboratory),
        new("Products", "/products", Icons.Material.Outlined.Category, Permission.SeeLaboratory),
        new("Audit trail", "/record", Icons.Material.Outlined.History, Permission.ReadRecord),
        new("Access review", "/access-review", Icons.Material.Outlined.HowToReg, Permission.SeeAccess),
        new("People", "/people", Icons.Material.Outlined.Group, Permission.KeepPeople),
        new("Terminals", "/terminals", Icons.Material.Outlined.TouchApp, Permission.KeepTerminals),
        new("Settings", "/settings", Icons.Material.Outlined.Tune, Permission.KeepSettings),
    ];

    /// <summary>What somebody sees.</summary>
    public static IEnumerable<NavigationEntry> For(Standing by) => All.Where(entry => entry.Needs is not { } needed || by.May(needed));
}

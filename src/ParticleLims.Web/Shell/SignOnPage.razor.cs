using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Web.Shell;

/// <summary>The sign-on page: by password anywhere, by badge or name and PIN at an enrolled terminal. There it is the lock screen too.</summary>
public sealed partial class SignOnPage
{
    private bool isSetUp = true;
    private TerminalRow? terminal;
    private TerminalRow? withdrawn;
    private SessionSeen? last;
    private BadgeSeen? badge;
    private PersonTile? chosen;
    private IReadOnlyList<PersonTile> tiles = [];

    [Inject] private LaboratorySetUp SetUp { get; set; } = null!;

    [Inject] private PinSignOn Pins { get; set; } = null!;

    [Inject] private Sessions Sessions { get; set; } = null!;

    [Inject] private LaboratoryClock Clock { get; set; } = null!;

    [CascadingParameter] private HttpContext Context { get; set; } = null!;

    /// <summary>Where to go on.</summary>
    [SupplyParameterFromQuery(Name = "to")] private string? To { get; set; }

    /// <summary>Who was chosen, or whose badge was read.</summary>
    [SupplyParameterFromQuery(Name = "person")] private Guid? PersonId { get; set; }

    /// <summary>Whether somebody has just set the own password.</summary>
    [SupplyParameterFromQuery(Name = "set")] private bool PasswordSet { get; set; }

    /// <summary>"password" at an enrolled terminal; "code" for the second step.</summary>
    [SupplyParameterFromQuery(Name = "with")] private string? With { get; set; }

    private Guid? LockedBy => last is { Over: SessionEnd.Locked or SessionEnd.Idle } ? last.PersonId : null;

    private string Title => With == "code" ? "One more step" : LockedBy is not null && chosen is null ? "Locked" : "Sign on";

    // What ended as people meant it needs no words, and who was here is nobody's business after that.
    private string? Over => chosen is null && last is { Over: not (null or SessionEnd.SignedOff or SessionEnd.HandedOver) } ? last.Words : null;

    private string BackAddress => $"/sign-on?to={Uri.EscapeDataString(To ?? "/")}";

    /// <inheritdoc />
    protected override async Task OnInitializedAsync()
    {
        var cancellation = Context.RequestAborted;
        await Clock.PrepareAsync(cancellation);
        isSetUp = await SetUp.IsDoneAsync(cancellation);
        var at = await TerminalCookie.SeenAsync(Context);
        last = await Sessions.LastAtAsync(at, cancellation);
        terminal = await TerminalCookie.EnrolledAsync(Context);
        if (terminal is null)
        {
            withdrawn = await TerminalCookie.KnownAsync(Context);
            return;
        }

        TerminalCookie.KeepOn(Context);
        tiles = await Pins.TilesAsync(at, cancellation);
        badge = BadgeCookie.Read(Context) is { } read && read.PersonId == PersonId ? read : null;
        chosen = badge is not null ? new PersonTile(badge.PersonId, badge.FullName) : tiles.FirstOrDefault(tile => tile.PersonId == PersonId);
    }
}

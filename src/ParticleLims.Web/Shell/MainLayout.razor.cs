using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.JSInterop;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Web.Shell;

/// <summary>The frame around every page: whose laboratory, who is signed on, where one can go.</summary>
public sealed partial class MainLayout : IDisposable
{
    private static readonly Standing Nobody = new(null, string.Empty, string.Empty, new HashSet<Permission>(), null);
    private readonly CancellationTokenSource leaving = new();
    private LaboratorySettings? settings;
    private Standing by = Nobody;
    private bool drawerOpen = true;

    [Inject] private NavigationManager Navigation { get; set; } = null!;

    [CascadingParameter] private Task<AuthenticationState> Authentication { get; set; } = null!;

    private bool SignedOn => by.PersonId is not null;

    private string SkipTarget => "/" + Navigation.ToBaseRelativePath(Navigation.Uri).Split('#')[0] + "#page";

    private string LookWords => Look.Choice switch { "light" => "Light", "dark" => "Dark", _ => "Auto" };

    /// <inheritdoc />
    protected override async Task OnInitializedAsync() => settings = await Settings.FindAsync(leaving.Token);

    /// <inheritdoc />
    protected override async Task OnParametersSetAsync()
    {
        // Asked again whenever the session's state changes, so that a name never stays on the screen after its session.
        await Authentication;
        try
        {
            by = await Current.StandingAsync(leaving.Token);
        }
        catch (NotPermittedException)
        {
            by = Nobody;
        }
    }

    private async Task NextLookAsync()
    {
        Look.Next();
        await using var shell = await Browser.InvokeAsync<IJSObjectReference>("import", "/shell.js");
        await shell.InvokeVoidAsync("keepLook", Look.Choice);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        leaving.Cancel();
        leaving.Dispose();
    }
}

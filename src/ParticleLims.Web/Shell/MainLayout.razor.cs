using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.JSInterop;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Web.Shell;

/// <summary>The frame around every page: whose laboratory, who is signed on, where one can go.</summary>
public sealed partial class MainLayout : IAsyncDisposable
{
    private static readonly Standing Nobody = new(null, string.Empty, string.Empty, new HashSet<Permission>(), null);
    private readonly CancellationTokenSource leaving = new();
    private LaboratorySettings? settings;
    private Standing by = Nobody;
    private bool drawerOpen = true;

    // The page answers to touches: what was prerendered does not, until its circuit is up.
    private bool live;

    [Inject] private NavigationManager Navigation { get; set; } = null!;

    [CascadingParameter] private Task<AuthenticationState> Authentication { get; set; } = null!;

    private DotNetObjectReference<MainLayout>? self;
    private IJSObjectReference? presence;
    private Guid? session;

    [Inject] private SessionWatch Watch { get; set; } = null!;

    private bool AtTerminal => by.EnrolledTerminal is not null;

    private string Here => "/" + Navigation.ToBaseRelativePath(Navigation.Uri).Split('#')[0];

    private bool SignedOn => by.PersonId is not null;

    private string SkipTarget => Here + "#page";

    private string LookWords => Look.Choice switch { "light" => "Light", "dark" => "Dark", _ => "Auto" };

    /// <inheritdoc />
    protected override async Task OnInitializedAsync() => settings = await Settings.FindAsync(leaving.Token);

    /// <inheritdoc />
    protected override async Task OnParametersSetAsync()
    {
        // Asked again whenever the session's state changes, so that a name never stays on the screen after its session.
        session = SessionIdentity.SessionId((await Authentication).User);
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

    /// <summary>Called by the browser when somebody touches the screen or a key.</summary>
    [JSInvokable]
    public void Touched()
    {
        if (session is { } touched)
        {
            Watch.Touch(touched);
        }
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (!live)
        {
            live = true;
            StateHasChanged();
        }

        if (self is not null || !AtTerminal || session is not { } followed || settings is null)
        {
            return;
        }

        self = DotNetObjectReference.Create(this);
        Watch.Follow(followed);
        var seconds = settings.LockAfterMinutes * 60;
        await using var module = await Browser.InvokeAsync<IJSObjectReference>("import", leaving.Token, "/presence.js");
        presence = await module.InvokeAsync<IJSObjectReference>("start", leaving.Token, self, seconds, seconds - (Watch.Untouched(followed)?.TotalSeconds ?? 0));
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await leaving.CancelAsync();
        leaving.Dispose();
        self?.Dispose();
        try
        {
            if (presence is not null)
            {
                await presence.InvokeVoidAsync("stop");
                await presence.DisposeAsync();
            }
        }
        catch (JSDisconnectedException)
        {
            // The browser is gone, and its listening with it.
        }
    }
}

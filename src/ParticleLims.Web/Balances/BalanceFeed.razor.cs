using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using ParticleLims.Instruments.Connections;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Balances;

/// <summary>
/// Hands on what a balance sends to this terminal. The browser is asked for raw bytes only; what they mean is decided here, and who is signed
/// on is asked again as they come.
/// </summary>
public sealed partial class BalanceFeed
{
    private static readonly TimeSpan AskAgainAfter = TimeSpan.FromSeconds(30);
    private static readonly Permission[] Users = [Permission.CarryOutRuns, Permission.CheckBalances, Permission.KeepEquipment];

    private ElementReference button;
    private DotNetObjectReference<BalanceFeed>? self;
    private IJSObjectReference? module;
    private IJSObjectReference? port;
    private IDisposable? looking;
    private FedLink? link;
    private DateTimeOffset askedAt;
    private bool allowed;
    private bool asks;

    /// <summary>The balance.</summary>
    [Parameter, EditorRequired] public Balance Balance { get; set; } = null!;

    [Inject] private ScreenBalances Screen { get; set; } = null!;

    [Inject] private TypedLines Typed { get; set; } = null!;

    [Inject] private CurrentActor Current { get; set; } = null!;

    [Inject] private IJSRuntime Browser { get; set; } = null!;

    [Inject] private TimeProvider Time { get; set; } = null!;

    /// <summary>Called by the browser: bytes of the port in their order.</summary>
    /// <param name="from">So many bytes came before since the port was opened.</param>
    /// <param name="piece">The bytes.</param>
    [JSInvokable]
    public Task Bytes(long from, byte[] piece) => InvokeAsync(async () =>
    {
        if (piece is { Length: > 0 and <= FedLink.LongestPiece } && await MayAsync())
        {
            link?.Add(from, piece);
        }
    });

    /// <summary>Called by the browser: how its port stands.</summary>
    [JSInvokable]
    public Task Port(string state) => InvokeAsync(async () =>
    {
        if (link is not null && await MayAsync())
        {
            asks = state == "asks";
            Tell(state);
            StateHasChanged();
        }
    });

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        looking?.Dispose();
        link?.Lost("Nobody listens at this screen.");
        try
        {
            if (port is not null)
            {
                await port.InvokeVoidAsync("stop");
                await port.DisposeAsync();
            }

            if (module is not null)
            {
                await module.DisposeAsync();
            }
        }
        catch (JSDisconnectedException)
        {
            // The browser is gone, and its port with it.
        }

        self?.Dispose();
    }

    /// <inheritdoc />
    protected override async Task OnInitializedAsync()
    {
        allowed = await MayAsync();
        link = allowed ? Screen.FedBy(Balance) : null;
    }

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        // The balance's reading format may have been changed meanwhile: then its lines go to a new link.
        if (link is not null && Screen.FedBy(Balance) is { } present && !ReferenceEquals(present, link))
        {
            var open = link.State.Link == BalanceLink.Connected;
            link = present;
            if (open)
            {
                link.Opened();
            }
        }
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        // What is shown before the permission is known has no port and no keys yet.
        if (link is null || self is not null)
        {
            return;
        }

        self = DotNetObjectReference.Create(this);
        if (Balance.WayIn == WayIn.Keyboard)
        {
            looking = Typed.LookFirst(line => link!.TakeTyped(line.Text, line.MayBeCut));
            link.Opened();
        }
        else
        {
            module = await Browser.InvokeAsync<IJSObjectReference>("import", "/serial.js");
            port = await module.InvokeAsync<IJSObjectReference>("follow", self, button, Settings(link));
        }
    }

    private object Settings(FedLink of) => new
    {
        balance = Balance.Id.ToString("N"),
        baudRate = Balance.BaudRate,
        dataBits = Balance.DataBits,
        parity = BalanceWords.Of(Balance.Parity),
        stopBits = Balance.StopBits,
        command = of.Format.RequestCommand is { } command && of.Format.RequestEvery is not null ? Encoding.ASCII.GetBytes(command + of.Format.CommandTerminator) : null,
        askEvery = of.Format.RequestEvery?.TotalMilliseconds,
    };

    // What the browser says is one of a few words; anything else is not repeated on the screen.
    private void Tell(string state)
    {
        switch (state)
        {
            case "open":
                link!.Opened();
                break;
            case "asks":
                link!.Lost("Choose its cable on this terminal.");
                break;
            case "none":
                link!.Lost("This browser cannot use the terminal's ports. It takes a Chromium browser and a secure connection (https).");
                break;
            case "taken":
                link!.Lost("Another window or program of this terminal uses the port.");
                break;
            default:
                link!.Lost("The terminal's port broke off.");
                break;
        }
    }

    private async Task<bool> MayAsync()
    {
        if (allowed && Time.GetUtcNow() - askedAt < AskAgainAfter)
        {
            return true;
        }

        try
        {
            var standing = await Current.StandingAsync();
            (allowed, askedAt) = (Array.Exists(Users, standing.May), Time.GetUtcNow());
        }
        catch (RefusedException)
        {
            allowed = false;
        }

        return allowed;
    }
}

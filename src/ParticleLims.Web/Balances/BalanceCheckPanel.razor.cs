using Microsoft.AspNetCore.Components;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Balances;

/// <summary>Does the daily check of a balance with its check weight.</summary>
public sealed partial class BalanceCheckPanel : IDisposable
{
    private LiveBalance? live;
    private bool busy;
    private bool passed;
    private bool keyingAllowed;
    private string first = string.Empty;
    private string second = string.Empty;
    private CheckCircumstances seen = new(Level: false, WarmedUp: false, null);
    private string? said;
    private RefusedException? refused;

    /// <summary>The balance.</summary>
    [Parameter, EditorRequired] public Balance Balance { get; set; } = null!;

    /// <summary>Called after a check; whether it passed.</summary>
    [Parameter] public EventCallback<bool> Checked { get; set; }

    [Inject] private BalanceTesting Testing { get; set; } = null!;

    [Inject] private SettingsKeeping Settings { get; set; } = null!;

    [Inject] private ScreenBalances Screen { get; set; } = null!;

    [Inject] private CurrentActor Current { get; set; } = null!;

    [Inject] private LaboratoryClock Clock { get; set; } = null!;

    [Inject] private TimeProvider Time { get; set; } = null!;

    private int Decimals => BalanceWords.Decimals(Balance);

    private string Shown => live?.Progress.Latest is { } reading ? Say.Grams(reading.Mass, reading.Decimals) : "– – –";

    private string Waiting => live!.State.Link == BalanceLink.Connected ? BalanceWords.Of(live.Progress, "check weight", live.Prints) : BalanceWords.Lost(live.State);

    /// <inheritdoc />
    public void Dispose() => Leave();

    /// <inheritdoc />
    protected override async Task OnInitializedAsync() => keyingAllowed = (await Settings.FindAsync(CancellationToken.None))?.KeyingAllowed == true;

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        var source = Screen.Of(Balance);
        if (live is not null && ReferenceEquals(live.Source, source) && live.WayIn == Balance.WayIn)
        {
            return;
        }

        Leave();
        if (source is not null)
        {
            live = new LiveBalance(source, Balance, new StableReadingRules { PanMustReturnToZero = true }, lastLoadMayBeOnPan: false, Time);
            live.Changed += OnChanged;
        }
    }

    private void Leave()
    {
        if (live is not null)
        {
            live.Changed -= OnChanged;
            live.Dispose();
            live = null;
        }
    }

    private void OnChanged(object? sender, EventArgs change) => _ = InvokeAsync(StateHasChanged);

    private async Task CheckAsync()
    {
        if (live?.Look().Ready is { } ready)
        {
            var key = $"check-{Balance.Id:N}-{ready.At.UtcTicks}";
            await KeepAsync(async actor => await Testing.CheckAsync(actor, Balance.Id, live.ForLaboratory(ready), seen, key, CancellationToken.None), $"{Say.Grams(ready.Mass, ready.Decimals)} shown");
        }
    }

    private Task CheckKeyedAsync() =>
        KeepAsync(async actor => await Testing.CheckKeyedAsync(actor, Balance.Id, new KeyedMass(first, second, null), seen, null, CancellationToken.None), $"{first.Trim()} g keyed");

    private async Task KeepAsync(Func<Actor, Task<bool>> check, string what)
    {
        (busy, refused, said) = (true, null, null);
        try
        {
            passed = await check(await Current.GetAsync());
            await Clock.PrepareAsync();
            said = passed
                ? $"{what}. Saved {Clock.TimeOfDay(Clock.Now)}."
                : $"{what}: outside the tolerance. The balance is out of service now; the laboratory manager can put it back.";
            await Checked.InvokeAsync(passed);
        }
        catch (RefusedException refusal)
        {
            refused = refusal;
        }
        finally
        {
            busy = false;
        }
    }
}

using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Runs;

/// <summary>Keys a mass. The first entry is hidden before the second is asked for, so that the second is read anew and not copied.</summary>
public sealed partial class KeyMass
{
    private bool allowed;
    private bool busy;
    private bool bySecond;
    private bool secondTime;
    private string first = string.Empty;
    private string second = string.Empty;
    private string name = string.Empty;
    private string password = string.Empty;
    private string? refused;

    /// <summary>The balance that does not answer.</summary>
    [Parameter, EditorRequired] public Balance Balance { get; set; } = null!;

    /// <summary>Nothing is taken while something else is under way or wrong.</summary>
    [Parameter] public bool Blocked { get; set; }

    /// <summary>Called when it is opened: nothing is then taken by itself.</summary>
    [Parameter] public EventCallback Opened { get; set; }

    /// <summary>Takes the mass.</summary>
    [Parameter] public EventCallback<KeyedMass> Key { get; set; }

    [Inject] private SettingsKeeping Settings { get; set; } = null!;

    [Inject] private ISecretCheck Secrets { get; set; } = null!;

    [Inject] private CurrentActor Current { get; set; } = null!;

    private int Decimals => KeyedMass.DecimalsOf(Balance);

    private bool Complete => first.Trim().Length > 0 && (bySecond ? name.Trim().Length > 0 && password.Length > 0 : !secondTime || second.Trim().Length > 0);

    /// <inheritdoc />
    protected override async Task OnInitializedAsync() => allowed = await Settings.FindAsync(CancellationToken.None) is { KeyingAllowed: true };

    private void Choose(bool confirmed)
    {
        Clear();
        bySecond = confirmed;
    }

    private void Clear() => (secondTime, first, second, name, password, refused) = (false, string.Empty, string.Empty, string.Empty, string.Empty, null);

    private async Task GiveAsync()
    {
        if (busy || Blocked || !Complete)
        {
            return;
        }

        (busy, refused) = (true, null);
        try
        {
            if (bySecond)
            {
                KeyedMass.RequireShowable(first, Balance);
                var proof = await Secrets.ProveOtherAsync(name, password, await Current.GetAsync(), CancellationToken.None);
                await Key.InvokeAsync(new KeyedMass(first, null, proof));
            }
            else if (secondTime)
            {
                var keyed = new KeyedMass(first, second, null);
                keyed.Read(Balance);
                await Key.InvokeAsync(keyed);
            }
            else
            {
                KeyedMass.RequireShowable(first, Balance);
                secondTime = true;
            }
        }
        catch (RefusedException refusal)
        {
            if (refusal.Code == "keyed-differs")
            {
                Clear();
            }

            (refused, password) = (refusal.Message, string.Empty);
        }
        finally
        {
            busy = false;
        }
    }
}

using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using MudBlazor;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Controls;

/// <summary>
/// What every page of the laboratory builds on: the actor, the clock, and one way to carry out a deed that says "saved" only
/// after it is, and a refusal in the laboratory's own words.
/// </summary>
public abstract class LaboratoryPage : ComponentBase, IDisposable
{
    private readonly CancellationTokenSource leaving = new();

    [Inject] protected CurrentActor Current { get; set; } = null!;
    [Inject] protected LaboratoryClock Clock { get; set; } = null!;
    [Inject] protected ISnackbar Messages { get; set; } = null!;
    [Inject] protected NavigationManager Navigation { get; set; } = null!;
    [Inject] private IJSRuntime Script { get; set; } = null!;

    /// <summary>Ends when the page is left.</summary>
    protected CancellationToken Leaving => leaving.Token;

    /// <summary>Who acts.</summary>
    protected Actor Actor { get; private set; } = Actor.Unknown("unknown");

    /// <summary>What they may do, for showing and hiding; the services check again.</summary>
    protected Standing By { get; private set; } = new(null, string.Empty, string.Empty, new HashSet<Permission>(), null);

    /// <summary>The last refusal, shown by <c>RefusalAlert</c>.</summary>
    protected RefusedException? Refusal { get; set; }

    /// <summary>True while a deed is under way; buttons are disabled by it.</summary>
    protected bool Busy { get; private set; }

    /// <inheritdoc />
    protected override async Task OnInitializedAsync()
    {
        await Clock.PrepareAsync(Leaving);
        Actor = await Current.GetAsync();
        try
        {
            By = await Current.StandingAsync(Leaving);
            await LoadAsync();
        }
        catch (RefusedException refusal)
        {
            Refusal = refusal;
        }
    }

    /// <summary>Loads what the page shows.</summary>
    protected abstract Task LoadAsync();

    /// <summary>Checks what was filled in. The first field that is not as it should be comes into view: the button stands below a long form.</summary>
    protected async Task ValidateAsync(MudForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        await form.ValidateAsync();
        _ = Script.BringAsync("bringFirstFaultIntoView"); // not awaited: what was filled in rightly is saved without asking the browser
    }

    /// <summary>Carries out a deed and says so; on a refusal says why and answers false.</summary>
    protected async Task<bool> DoAsync(Func<Task> deed, string? said = null)
    {
        ArgumentNullException.ThrowIfNull(deed);
        (Refusal, Busy) = (null, true);
        try
        {
            await deed();
            if (said is not null)
            {
                Messages.Add(said, Severity.Success);
            }

            return true;
        }
        catch (RefusedException refusal)
        {
            Refusal = refusal;
            return false;
        }
        finally
        {
            Busy = false;
            StateHasChanged();
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Dispose(disposing: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Ends what the page began.</summary>
    protected virtual void Dispose(bool disposing)
    {
        if (disposing)
        {
            leaving.Cancel();
            leaving.Dispose();
        }
    }
}

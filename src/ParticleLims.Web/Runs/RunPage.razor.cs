using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Web.Balances;

namespace ParticleLims.Web.Runs;

/// <summary>
/// The guided run. Where it stands follows from what is on disk alone, so it goes on after a restart, on any terminal; what this page
/// keeps for itself may be lost at any moment.
/// </summary>
public sealed partial class RunPage
{
    private Dictionary<int, string> places = [];
    private RunView? view;
    private bool loaded;
    private bool working;
    private string? saved;
    private string? scanned;
    private string? notSaved;
    private string? notAuthorised;
    private LiveBalance? live;
    private WeighStep? weighStep;
    private Mass? usualTare;
    private Balance? uncheckedBalance;
    private Weighing? again;
    private string againReason = string.Empty;
    private IDisposable? following;

    /// <summary>The run.</summary>
    [Parameter] public Guid RunId { get; set; }

    /// <summary>Set by connection.js when the page loads itself again.</summary>
    [SupplyParameterFromQuery(Name = "came-back")] private bool CameBack { get; set; }

    [Inject] private RunReading Reading { get; set; } = null!;

    [Inject] private RunWeighing Weighing { get; set; } = null!;

    [Inject] private RunKeying Keying { get; set; } = null!;

    [Inject] private RunSieving Sieving { get; set; } = null!;

    [Inject] private RunPreparing Preparing { get; set; } = null!;

    [Inject] private RunScanning Scanning { get; set; } = null!;

    [Inject] private RunLooking Looking { get; set; } = null!;

    [Inject] private RunSubmission Submission { get; set; } = null!;

    [Inject] private RunStart Starting { get; set; } = null!;

    [Inject] private TareHistory Tares { get; set; } = null!;

    [Inject] private SieveRegister Sieves { get; set; } = null!;

    [Inject] private AuthorisationOverriding Authorisations { get; set; } = null!;

    [Inject] private RunChoosing Choosing { get; set; } = null!;

    [Inject] private ScreenBalances Screen { get; set; } = null!;

    [Inject] private SimulatedBalanceHost Simulator { get; set; } = null!;

    [Inject] private RunChanges Changes { get; set; } = null!;

    [Inject] private RunSeats Seats { get; set; } = null!;

    [Inject] private ScreenPresence Presence { get; set; } = null!;

    [Inject] private BenchTiming Timing { get; set; } = null!;

    [Inject] private TimeProvider Time { get; set; } = null!;

    [Inject] private IDialogService Dialogs { get; set; } = null!;

    [Inject] private ILogger<RunPage> Log { get; set; } = null!;

    private string Here => $"{By.Name} at terminal {Current.Terminal}";

    private string? WorkedOnElsewhere => Seats.OtherThan(RunId, this);

    private bool MayGiveUp => view?.Run.State is RunState.Planned or RunState.InProgress or RunState.Returned;

    private RunStep? WeighNow => again is { } mistaken
        ? againReason.Trim().Length >= 5 ? RunStep.Of(mistaken) : null
        : view?.Next is { Kind: RunStepKind.Weigh } step ? step : null;

    private string StepKey => $"{StepWords.Handle(WeighNow ?? view?.Next)}-{view?.Run.Weighings.Count}-{again?.Id}";

    private CautionMoment Moment => view?.Next switch
    {
        null => CautionMoment.Finished,
        { Kind: RunStepKind.Sieve } => CautionMoment.Sieving,
        { Preparation: PreparationKind.Drying } => CautionMoment.Drying,
        _ => CautionMoment.Weighing,
    };

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        await LookAsync();
        notAuthorised = MayGiveUp ? await Authorisations.MissingAsync(Actor, RunId, Leaving) : null;
    }

    /// <inheritdoc />
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            following = Changes.Subscribe(RunId, () => _ = InvokeAsync(ChangedElsewhereAsync));
            Arrive();
        }
    }

    /// <inheritdoc />
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            following?.Dispose();
            Seats.Leave(RunId, this);
            live?.Dispose();
        }

        base.Dispose(disposing);
    }

    // Reads the run anew. Whatever was weighed meanwhile, here or at another terminal, may still lie on the pan.
    private async Task LookAsync()
    {
        var before = view?.Run.Weighings.Count;
        view = await Reading.FindAsync(Actor, RunId, Leaving);
        loaded = true;
        if (view is null)
        {
            return;
        }

        if (view.Run.Weighings.Count > before)
        {
            live?.Taken(LastLoad);
        }

        if (again is not null && view.Run.StandingWeighings.All(weighing => weighing.Id != again.Id))
        {
            StopAgain();
        }

        await FollowBalanceAsync();
        usualTare = WeighNow is { Weighing: WeighingKind.Empty } step && SieveAt(step.Position) is { } sieve ? await Tares.UsualAsync(Actor, sieve.SieveId, Leaving) : null;
    }

    private async Task FollowBalanceAsync()
    {
        if (view!.Balance is not { } balance || view.Run.State is not (RunState.InProgress or RunState.Returned))
        {
            return;
        }

        if (Screen.Of(balance) is { } source && (live is null || !ReferenceEquals(live.Source, source) || live.WayIn != balance.WayIn))
        {
            live?.Dispose();
            live = new LiveBalance(source, balance, Timing.Rules, lastLoadMayBeOnPan: view.Run.Weighings.Count > 0, Time, LastLoad);
        }

        uncheckedBalance = (await Choosing.BalancesAsync(Actor, Leaving)).FirstOrDefault(choice => choice.Balance.Id == balance.Id && choice.OnlyCheckMissing)?.Balance;
        if (places.Count == 0)
        {
            var all = (await Sieves.AllAsync(Actor, Leaving)).ToDictionary(sieve => sieve.Id, sieve => sieve.Place);
            places = view.Run.Sieves.ToDictionary(sieve => sieve.Position, sieve => all.GetValueOrDefault(sieve.SieveId, string.Empty));
        }
    }

    private Mass? LastLoad => view!.Run.Weighings.MaxBy(weighing => weighing.At)?.Mass;

    private RunSieve? SieveAt(int position) => view?.Run.Sieves.Find(sieve => sieve.Position == position);

    private void Touched()
    {
        weighStep?.Touch();
        SitDown();
    }

    // Somebody opened this screen, or it loaded itself again after the server was gone: then nobody may stand at it.
    private void Arrive()
    {
        if (!CameBack)
        {
            SitDown();
        }
        else if (Seats.TakeIfFree(RunId, this, Here))
        {
            Changes.Tell(RunId, following);
        }
    }

    private void SitDown()
    {
        if (Seats.Take(RunId, this, Here))
        {
            Changes.Tell(RunId, following);
            StateHasChanged();
        }
    }

    // Nothing happens by itself at a screen that nobody looks at, or while the run is worked on at another one.
    private bool MayActByItself() => Presence.IsThere && Seats.Has(RunId, this);

    private async Task ChangedElsewhereAsync()
    {
        if (working)
        {
            return;
        }

        await TryLookAsync();
        StateHasChanged();
    }

    private async Task LookAgainAsync()
    {
        (Refusal, saved, scanned) = (null, null, null);
        if (await TryLookAsync())
        {
            notSaved = null;
        }
    }

    private async Task<bool> TryLookAsync()
    {
        try
        {
            await LookAsync();
            return true;
        }
        catch (DatabaseTroubledException trouble)
        {
            RunFaults.NotRead(Log, RunId, trouble);
            notSaved ??= trouble.Message;
            return false;
        }
        catch (RefusedException refusal)
        {
            Refusal = refusal;
            return false;
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            return false;
        }
        catch (Exception fault)
        {
            RunFaults.NotRead(Log, RunId, fault);
            notSaved ??= "The run cannot be read: the database does not answer. Tell the administrator.";
            return false;
        }
    }

    private async Task StartedAsync()
    {
        Changes.Tell(RunId, following);
        await TryLookAsync();
    }
}

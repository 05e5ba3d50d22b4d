using Microsoft.AspNetCore.Components;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Balances;
using ParticleLims.Web.Controls;
using BalanceReading = ParticleLims.Laboratory.Balances.BalanceReading;
using InstrumentReading = ParticleLims.Instruments.Readings.BalanceReading;

namespace ParticleLims.Web.Runs;

/// <summary>Shows the live mass of one weighing and takes it by itself when it is stable and can be right.</summary>
public sealed partial class WeighStep : IDisposable
{
    private AutomaticTaking taking = null!;
    private LiveBalance? followed;
    private (Mass Mass, RefusedException? Refusal)? judged;
    private string seen = string.Empty;
    private bool busy;

    /// <summary>The run.</summary>
    [Parameter, EditorRequired] public RunView View { get; set; } = null!;

    /// <summary>The weighing.</summary>
    [Parameter, EditorRequired] public RunStep Step { get; set; } = null!;

    /// <summary>The balance; null when it cannot be reached as it is registered.</summary>
    [Parameter, EditorRequired] public LiveBalance? Live { get; set; }

    /// <summary>Where the sieve hangs.</summary>
    [Parameter] public string? Place { get; set; }

    /// <summary>What the sieve usually weighs.</summary>
    [Parameter] public Mass? UsualTare { get; set; }

    /// <summary>Nothing is taken while something else is under way or wrong.</summary>
    [Parameter] public bool Blocked { get; set; }

    /// <summary>Whether readings may be taken by themselves on this screen now.</summary>
    [Parameter, EditorRequired] public Func<bool> ByItself { get; set; } = () => false;

    /// <summary>Takes a reading.</summary>
    [Parameter, EditorRequired] public EventCallback<BalanceReading> Take { get; set; }

    /// <summary>Takes a mass that was keyed by hand.</summary>
    [Parameter] public EventCallback<KeyedMass> Key { get; set; }

    /// <summary>Keeps what was seen on an empty sieve that weighs more or less than usual.</summary>
    [Parameter] public EventCallback<string> Look { get; set; }

    [Inject] private BenchTiming Timing { get; set; } = null!;

    [Inject] private TimeProvider Time { get; set; } = null!;

    private RunSieve? Sieve => View.Run.Sieves.Find(sieve => sieve.Position == Step.Position);

    private InstrumentReading? Latest => Live?.Progress.Latest;

    private string MassText => Latest is { } reading ? Say.Grams(reading.Mass, reading.Decimals) : "– – –";

    private string MassClass => Latest is not { Stable: true } ? "unstable" : Implausible is null ? "stable" : "implausible";

    private int Percent => (int)Math.Round((Live?.Progress.Fraction ?? 0) * 100);

    // What is wrong with the mass that lies there; said only when it holds still.
    private string? Implausible => Refused?.Message;

    private RefusedException? Refused => Live?.Progress is { WaitsFor: WaitReason.Hold or WaitReason.Nothing, Latest: { } reading } ? Judge(reading.Mass) : null;

    // What is being written stays on the screen, whatever the pan shows meanwhile.
    private bool IsToBeLookedAt => Step.Weighing == WeighingKind.Empty && !View.Run.IsLookedAt(Step.Position) && (seen.Length > 0 || Refused is { } refused && Plausibility.ToBeLookedAt.Contains(refused.Code));

    // By hand a reading may also be taken before the pan was seen empty, if it is plainly another load than the last one.
    private InstrumentReading? Takable => Live?.Progress switch
    {
        null => null,
        { Ready: { } ready } => ready,
        { WaitsFor: WaitReason.ClearedPan, Latest: { Stable: true } reading } when IsAnotherLoad(reading.Mass) => reading,
        { WaitsFor: WaitReason.AnotherLoad, Latest: { } print } => print,
        _ => null,
    };

    private string Words => Live switch
    {
        null => "The balance's address or reading format cannot be used. Ask whoever keeps the equipment.",
        { State: { Link: not BalanceLink.Connected } state } => BalanceWords.Lost(state),
        { Progress.Rejection: { } rejected } => rejected.Reason,
        _ when taking.State == TakingState.Held && Implausible is null => "Stopped. Press “Take now” when the mass is right, or let it go on by itself.",
        _ => Implausible ?? BalanceWords.Of(Live.Progress, Step.Weighing!.Value.Words(), Live.Prints),
    };

    /// <summary>A touch anywhere on the screen.</summary>
    public void Touch() => taking.Touch();

    /// <summary>Nothing is taken by itself until somebody says so.</summary>
    public void Hold() => taking.Hold();

    /// <summary>Readings are taken by themselves again.</summary>
    public void GoOn() => taking.GoOn();

    /// <inheritdoc />
    public void Dispose()
    {
        if (followed is not null)
        {
            followed.Changed -= OnChanged;
        }
    }

    /// <inheritdoc />
    protected override void OnInitialized() => taking = new AutomaticTaking(Timing.Countdown);

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        if (ReferenceEquals(followed, Live))
        {
            return;
        }

        Dispose();
        followed = Live;
        if (followed is not null)
        {
            followed.Changed += OnChanged;
        }
    }

    private void OnChanged(object? sender, EventArgs change) => _ = InvokeAsync(ObserveAsync);

    private async Task ObserveAsync()
    {
        if (Live is not { } live || busy)
        {
            return;
        }

        if (!ByItself())
        {
            taking.GoOn();
        }
        else if (taking.Observe(Time.GetUtcNow(), live.Progress, Implausible is null) == TakingState.Due && !Blocked)
        {
            await TakeAsync(live.Look().Ready);
        }

        StateHasChanged();
    }

    private Task TakeNowAsync() => TakeAsync(Takable);

    private async Task TakeAsync(InstrumentReading? reading)
    {
        if (reading is null || busy || Blocked)
        {
            return;
        }

        busy = true;
        try
        {
            await Take.InvokeAsync(Live!.ForLaboratory(reading));
        }
        finally
        {
            busy = false;
        }
    }

    private bool IsAnotherLoad(Mass mass) =>
        View.Run.Weighings.MaxBy(weighing => weighing.At) is { } last
        && Math.Abs(mass.Micrograms) > Timing.Rules.NearZero.Micrograms
        && Math.Abs((mass - last.Mass).Micrograms) > Timing.Rules.NearZero.Micrograms;

    private async Task LookAsync()
    {
        await Look.InvokeAsync(seen.Trim());
        (seen, judged) = (string.Empty, null);
        taking.GoOn();
    }

    private RefusedException? Judge(Mass mass)
    {
        if (judged is { } known && known.Mass == mass)
        {
            return known.Refusal;
        }

        RefusedException? refusal = null;
        try
        {
            Plausibility.Require(View.Run, View.Method, Step, mass, View.Balance!, UsualTare);
        }
        catch (RefusedException why)
        {
            refusal = why;
        }

        judged = (mass, refusal);
        return refusal;
    }
}

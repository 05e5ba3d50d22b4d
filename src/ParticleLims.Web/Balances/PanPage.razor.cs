using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Web.Balances;

/// <summary>The hand at the simulated balance.</summary>
public sealed partial class PanPage
{
    private readonly CancellationTokenSource ticking = new();
    private List<RunRow> rows = [];
    private List<Mass> checkWeights = [];
    private RunView? view;
    private Guid? chosen;
    private Mass? suggestion;
    private string free = string.Empty;
    private bool loaded;

    [Inject] private SimulatedBalanceHost Simulator { get; set; } = null!;

    [Inject] private RunReading Runs { get; set; } = null!;

    [Inject] private TareHistory Tares { get; set; } = null!;

    [Inject] private BalanceRegister Register { get; set; } = null!;

    [Inject] private TimeProvider Time { get; set; } = null!;

    private string Asked => view switch
    {
        { Next: { Kind: RunStepKind.Weigh } step } => $"Next on the pan: the {step.Weighing!.Value.Words()}{Which(step.Position)}.",
        { Next: { Preparation: { } preparation } } => $"Next is the {preparation.Words()}: take everything off the pan.",
        { Next: { } step } => $"Next is sieving{Which(step.Position)}: take everything off the pan.",
        _ => "Every step of this run is done.",
    };

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        if (Simulator.BalanceId is { } id)
        {
            checkWeights = [.. (await Register.AllAsync(Actor, Leaving)).Where(balance => balance.Id == id).Select(balance => balance.CheckWeight)];
            await LookAsync();
        }
        else if (Navigation.Uri.Length > 0)
        {
            Navigation.NotFound();
        }

        loaded = true;
    }

    /// <inheritdoc />
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender && Simulator.Simulated is not null)
        {
            _ = FollowAsync(ticking.Token);
        }
    }

    /// <inheritdoc />
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            ticking.Cancel();
            ticking.Dispose();
        }

        base.Dispose(disposing);
    }

    private async Task FollowAsync(CancellationToken cancellation)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromSeconds(1), Time);
        try
        {
            while (await timer.WaitForNextTickAsync(cancellation))
            {
                await InvokeAsync(async () =>
                {
                    await LookAsync();
                    StateHasChanged();
                });
            }
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            // The page was left.
        }
    }

    private async Task LookAsync()
    {
        var going = await Runs.InStatesAsync(Actor, [RunState.InProgress, RunState.Returned], 50, Leaving);
        rows = [.. going.Where(row => row.StartedAt is not null).OrderByDescending(row => row.StartedAt)];
        chosen = rows.Exists(row => row.Id == chosen) ? chosen : rows.FirstOrDefault()?.Id;
        view = chosen is { } id ? await Runs.FindAsync(Actor, id, Leaving) : null;
        suggestion = view?.Next is { Kind: RunStepKind.Weigh } step ? PowderOnPan.For(view, step, await UsualAsync(step)) : null;
    }

    private async Task<Mass?> UsualAsync(RunStep step) =>
        step.Weighing == WeighingKind.Empty && view!.Run.Sieves.Find(sieve => sieve.Position == step.Position) is { } sieve ? await Tares.UsualAsync(Actor, sieve.SieveId, Leaving) : null;

    private async Task ChooseAsync(ChangeEventArgs change)
    {
        chosen = Guid.TryParse(change.Value?.ToString(), out var id) ? id : chosen;
        await LookAsync();
    }

    private void Put(Mass mass) => Simulator.Simulated!.LoadPan(mass);

    private void PutFree()
    {
        Refusal = null;
        if (!decimal.TryParse(free, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var grams) || grams > 5_000 || decimal.Round(grams, 6) != grams)
        {
            Refusal = new RefusedException("pan-mass", $"“{free}” is not a mass in grams with a decimal point, from 0 to 5000.", "mass");
            return;
        }

        Put(Mass.FromGrams(grams));
    }

    private string Which(int position) => view?.Run.Sieves.Find(sieve => sieve.Position == position) is { } sieve ? $" {Controls.Say.Micrometres(sieve.Aperture)} {sieve.SieveSerial}" : string.Empty;
}

using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Controls;
using BalanceReading = ParticleLims.Laboratory.Balances.BalanceReading;

namespace ParticleLims.Web.Runs;

/// <summary>What is done at the bench. Nothing is said to be saved before it is; what was not carried out is said in large letters.</summary>
public sealed partial class RunPage
{
    private static readonly string[] GoneOnElsewhere = ["step-done", "step-order", "key-used", "weighing-superseded", "sieving-goes-on", "sieving-not-going-on", "preparation-goes-on", "preparation-not-going-on"];

    // The key follows from the run, the step and what was weighed before, so that two screens that take the same reading make one weighing.
    private string KeyOf(string deed, RunStep step) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{deed}-{RunId:N}-{StepWords.Handle(step)}-{view!.Run.Weighings.Count}-{view.Run.Intervals.Count}-{view.Run.Preparations.Count}");

    private Task TakeAsync(BalanceReading reading) => DeedAsync(async () =>
    {
        var step = WeighNow!;
        var taken = again is { } mistaken
            ? await Weighing.TakeAgainAsync(Actor, RunId, mistaken.Id, reading, againReason, KeyOf("again", step), CancellationToken.None)
            : await Weighing.TakeAsync(Actor, RunId, step, reading, KeyOf("weigh", step), CancellationToken.None);
        live?.Taken(reading.Mass);
        saved = $"{Say.Grams(reading.Mass, reading.Decimals)} saved {Clock.TimeOfDay(taken.At)}";
        StopAgain();
    });

    private Task KeepLookAsync(string seen) => DeedAsync(async () =>
    {
        await Looking.LookAsync(Actor, RunId, WeighNow!.Position, seen, KeyOf("look", WeighNow), CancellationToken.None);
        saved = $"what you saw is saved {Clock.TimeOfDay(Clock.Now)}";
    });

    // A scanner types: the first of its keys was a touch, but nobody wants to stop anything by it.
    private Task ScanAsync(string code) => DeedAsync(async () =>
    {
        var words = await Scanning.ScanAsync(Actor, RunId, code, Guid.CreateVersion7(Clock.Now).ToString("N"), CancellationToken.None);
        scanned = words;
        weighStep?.GoOn();
    });

    private Task KeyAsync(KeyedMass keyed) => DeedAsync(async () =>
    {
        var step = WeighNow!;
        var taken = again is { } mistaken
            ? await Keying.KeyAgainAsync(Actor, RunId, mistaken.Id, keyed, againReason, KeyOf("key-again", step), CancellationToken.None)
            : await Keying.KeyAsync(Actor, RunId, step, keyed, KeyOf("key", step), CancellationToken.None);
        live?.Taken(null);
        saved = $"{keyed.First.Trim()} g, keyed by hand, saved {Clock.TimeOfDay(taken.At)}";
        StopAgain();
    });

    private Task BeginSievingAsync() => DeedAsync(async () =>
    {
        var began = await Sieving.BeginAsync(Actor, RunId, view!.Next!.Position, KeyOf("sieve-begin", view.Next), CancellationToken.None);
        saved = $"sieving begun {Clock.TimeOfDay(began)}";
    });

    private Task EndSievingAsync(PressureSeen? pressure) => DeedAsync(async () =>
    {
        var seconds = await Sieving.EndAsync(Actor, RunId, view!.Next!.Position, pressure, KeyOf("sieve-end", view.Next), CancellationToken.None);
        saved = $"{Say.Seconds(seconds)} of sieving saved {Clock.TimeOfDay(Clock.Now)}";
    });

    private Task ReadConditionsAsync(RoomConditions conditions) => DeedAsync(async () =>
    {
        var at = await Preparing.ReadConditionsAsync(Actor, RunId, conditions, KeyOf("conditions", view!.Next!), CancellationToken.None);
        saved = $"conditions saved {Clock.TimeOfDay(at)}";
    });

    private Task BeginPreparingAsync(Temperature? oven) => DeedAsync(async () =>
    {
        var at = await Preparing.BeginAsync(Actor, RunId, view!.Next!.Preparation!.Value, oven, KeyOf("prepare-begin", view.Next), CancellationToken.None);
        saved = $"begin saved {Clock.TimeOfDay(at)}";
    });

    private Task EndPreparingAsync() => DeedAsync(async () =>
    {
        var minutes = await Preparing.EndAsync(Actor, RunId, view!.Next!.Preparation!.Value, KeyOf("prepare-end", view.Next), CancellationToken.None);
        saved = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{minutes} min saved {Clock.TimeOfDay(Clock.Now)}");
    });

    private Task MixFlowAidAsync(string batch) => DeedAsync(async () =>
    {
        var at = await Preparing.MixFlowAidAsync(Actor, RunId, batch, KeyOf("flow-aid", view!.Next!), CancellationToken.None);
        saved = $"flow aid saved {Clock.TimeOfDay(at)}";
    });

    private Task SubmitAsync() => DeedAsync(async () =>
    {
        await Submission.SubmitAsync(Actor, RunId, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"submit-{RunId:N}-{view!.Run.Version}"), CancellationToken.None);
        saved = $"submitted {Clock.TimeOfDay(Clock.Now)}";
    });

    private async Task AbandonAsync()
    {
        var reason = await Dialogs.AskReasonAsync($"Abandon run {view!.Run.Number}", "The run stays in the lot's history with your reason, and a new one is planned in its place. An abandoned run is never deleted.");
        if (reason is not null)
        {
            await DeedAsync(async () =>
            {
                await Starting.AbandonAsync(Actor, RunId, reason, view.Run.Version, CancellationToken.None);
                saved = $"abandoned {Clock.TimeOfDay(Clock.Now)}";
            });
        }
    }

    private async Task StartAgainAsync(Weighing mistaken)
    {
        (again, againReason, saved, Refusal) = (mistaken, string.Empty, null, null);
        await TryLookAsync();
    }

    private void ChooseReason(string reason) => againReason = reason;

    private void StopAgain() => (again, againReason) = (null, string.Empty);

    private async Task DeedAsync(Func<Task> deed)
    {
        if (working)
        {
            return;
        }

        (working, Refusal, saved, scanned) = (true, null, null, null);
        try
        {
            await deed();
            Changes.Tell(RunId, following);
        }
        catch (DatabaseTroubledException trouble)
        {
            weighStep?.Hold();
            RunFaults.NotCarriedOut(Log, RunId, trouble);
            notSaved = trouble.Message;
        }
        catch (RefusedException refusal)
        {
            weighStep?.Hold();
            Refusal = GoneOnElsewhere.Contains(refusal.Code) ? new RefusedException(refusal.Code, "This was done already, perhaps at another terminal. The run is shown as it stands now.") : refusal;
        }
        catch (Exception fault)
        {
            // Whether it reached the disk is not known; the key makes a second try harmless.
            weighStep?.Hold();
            RunFaults.NotCarriedOut(Log, RunId, fault);
            notSaved = "The database did not answer. Leave everything as it is, and look at the run again.";
        }
        finally
        {
            if (notSaved is null)
            {
                await TryLookAsync();
            }

            working = false;
            StateHasChanged();
        }
    }
}

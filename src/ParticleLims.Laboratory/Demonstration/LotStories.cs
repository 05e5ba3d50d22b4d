using System.Globalization;
using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>What a lot has of its own.</summary>
internal enum Story
{
    /// <summary>Tested, accepted, released, certified.</summary>
    Usual,
    /// <summary>A run is abandoned and done anew.</summary>
    Abandoned,
    /// <summary>A run is handed back, corrected and submitted again.</summary>
    Returned,
    /// <summary>Out of specification by a cause in the laboratory: invalidated and done anew.</summary>
    LaboratoryCause,
    /// <summary>Out of specification, confirmed, rejected.</summary>
    Confirmed,
    /// <summary>Slightly out of specification, confirmed, released by concession.</summary>
    Concession,
    /// <summary>Within its limits, beyond the alert limit of its D50: explained, released.</summary>
    BeyondAlert,
    /// <summary>Its certificate is taken back.</summary>
    Withdrawn,
}

/// <summary>Tells the stories of lots from their arrival to their certificate.</summary>
internal sealed class LotStories(LotLife life, Crew crew, History history, HistoryClock clock, DemonstrationOptions options)
{
    private readonly Chance chance = new Chance(options.Seed).For(-3);
    private readonly Dictionary<string, int> numbers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> sold = new(StringComparer.Ordinal);
    private int lots;

    /// <summary>Makes a new lot arrive.</summary>
    /// <param name="line">Its product.</param>
    /// <param name="powder">What it truly is; null for what the mill makes at that time.</param>
    /// <param name="cancellation">Ends it.</param>
    public async Task<LotInPlay> ArriveAsync(ProductLine line, Powder? powder, CancellationToken cancellation)
    {
        var own = chance.For(++lots);
        var usual = line.Powder.Coarser((1 + (line.Drift * history.PartAt(clock.Now))) * (1 + (line.Scatter * own.Normal(2))));
        var lot = new LotInPlay(lots, NumberOf(line), line, line.Customers[CountUp(sold, line.Code) % line.Customers.Count], powder ?? usual, own);
        await life.ArriveAsync(lot, cancellation);
        return lot;
    }

    /// <summary>Tells one lot's story.</summary>
    public async Task TellAsync(Timeline timeline, ProductLine line, Story story, CancellationToken cancellation)
    {
        var lot = await ArriveAsync(line, PowderOf(story), cancellation);
        await LaterAsync(timeline, lot, 0.2, 1.5);
        await TestAsync(timeline, lot, story, cancellation);
        await LaterAsync(timeline, lot, 0.4, 4);
        await life.ExplainAsync(lot, story == Story.BeyondAlert
            ? "The classifier was set anew after its bearing was changed that morning; the first hours came out coarser. Set back by the mill, the next lot is watched. The lot keeps its limits."
            : "Looked at the last thirty runs and asked the mill: within what the classifier does from day to day, and well inside the limits. Watched with the next lots.", cancellation);
        if (story == Story.LaboratoryCause)
        {
            await FindCauseAsync(timeline, lot, cancellation);
        }

        for (var replicate = 1; replicate <= lot.RunIds.Count; replicate++)
        {
            await life.AcceptAsync(lot, replicate, cancellation);
        }

        await LaterAsync(timeline, lot, 0.4, 4);
        await DecideAsync(timeline, lot, story, cancellation);
    }

    /// <summary>Waits so many hours of work.</summary>
    public Task LaterAsync(Timeline timeline, LotInPlay lot, double least, double most) => timeline.UntilAsync(WorkingTime.After(clock.Now, lot.Chance.Between(least, most)));

    /// <summary>What goes wrong on an ordinary day, seldom.</summary>
    public static Mishap MishapOf(LotInPlay lot)
    {
        var brush = lot.Chance.Happens(0.06);
        return brush ? Mishap.BrushOnPan : lot.Chance.Happens(0.04) && lot.Method.PressureLowest is not null ? Mishap.WeakVacuum : Mishap.None;
    }

    private static RosinRammlerPowder? PowderOf(Story story) => story switch
    {
        Story.Confirmed => RosinRammlerPowder.OfMedian(51.6, 1.9),
        Story.BeyondAlert => RosinRammlerPowder.OfMedian(45.4, 1.9),
        Story.Concession => RosinRammlerPowder.OfMedian(65.4, 2.1),
        _ => null,
    };

    private static int CountUp(Dictionary<string, int> counts, string key) => counts[key] = counts.GetValueOrDefault(key) + 1;

    private string NumberOf(ProductLine line)
    {
        var prefix = string.Create(CultureInfo.InvariantCulture, $"{line.Code.Replace("-", string.Empty, StringComparison.Ordinal)}-{WorkingTime.DayOf(clock.Now):yyMM}");
        return string.Create(CultureInfo.InvariantCulture, $"{prefix}-{CountUp(numbers, prefix):00}");
    }

    private async Task TestAsync(Timeline timeline, LotInPlay lot, Story story, CancellationToken cancellation)
    {
        if (story == Story.Abandoned)
        {
            await life.TestAsync(lot, 1, Mishap.CoverOff, 1, cancellation);
            await life.TakeReplacementAsync(lot, 1, cancellation);
        }

        for (var replicate = 1; replicate <= lot.RunIds.Count; replicate++)
        {
            var run = await life.TestAsync(lot, replicate, story == Story.Usual ? MishapOf(lot) : Mishap.None, story == Story.LaboratoryCause ? 1.19 : 1, cancellation);
            if (story == Story.Returned)
            {
                await LaterAsync(timeline, lot, 0.3, 1.5);
                await life.ReturnAsync(lot, replicate, "The residue on the coarsest sieve is higher than in the last ten runs: weigh the sieve with its residue again", cancellation);
                await LaterAsync(timeline, lot, 0.3, 1);
                await life.CorrectAsync(run, RunStep.Weigh(WeighingKind.After, lot.Method.Apertures.Count), "Weighed again as the reviewer asked; the residue had been kept on the sieve", cancellation);
            }
        }
    }

    private async Task FindCauseAsync(Timeline timeline, LotInPlay lot, CancellationToken cancellation)
    {
        await life.NoteAsync(lot, crew.Reviewers[1], "Sieves, balance and calculation looked at: no fault. The jar had stood open at the bench since the morning; the powder in it is caked. The sealed second half of the sample is free-flowing.", cancellation);
        await LaterAsync(timeline, lot, 0.5, 2);
        await life.AnswerAsync(lot, crew.Reviewers[1], (PhasePoint.Division, "The jar had stood open at the bench since the morning. What is left in it is caked; the sealed second half of the sample flows freely."), cancellation);
        await life.ConcludeAsync(lot, InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.Preparation, "The sample took up moisture at the bench and caked, so it seemed too coarse. The run does not show the lot.", cancellation);
        await LaterAsync(timeline, lot, 0.3, 1);
        await life.InvalidateAsync(lot, 1, "Sample left open at the bench: caked by moisture, see the investigation", cancellation);
        await LaterAsync(timeline, lot, 0.3, 1);
        await life.TestAsync(lot, 1, Mishap.None, 1, cancellation);
        await LaterAsync(timeline, lot, 0.4, 2);
    }

    private async Task DecideAsync(Timeline timeline, LotInPlay lot, Story story, CancellationToken cancellation)
    {
        switch (story)
        {
            case Story.Confirmed:
                await ConfirmAsync(timeline, lot, "At the mill the classifier had run at 2 100 instead of 2 600 turns a minute for two hours. The lots before and after it conform.", cancellation);
                await life.RejectAsync(lot, "Out of specification, confirmed: too coarse. The lot goes back to the mill to be ground again.", cancellation);
                break;
            case Story.Concession:
                await ConfirmAsync(timeline, lot, "The mill's pins are worn: the sugar has grown coarser for months. This lot is the first beyond the limit.", cancellation);
                await life.ProposeAsync(lot, "D50 is just above 64 µm. The customer was asked and takes this lot for fondant, where it does no harm (letter of the same day).", cancellation);
                await LaterAsync(timeline, lot, 0.5, 3);
                await life.ConcedeAsync(lot, "Granted for this lot only, on the customer's letter; the mill changes the pins.", cancellation);
                break;
            default:
                await life.ReleaseAsync(lot, certificate: lot.Customer is not null || lot.Chance.Happens(0.5) || story == Story.Withdrawn, cancellation);
                break;
        }

        if (story == Story.Withdrawn)
        {
            await LaterAsync(timeline, lot, 3, 9);
            await life.WithdrawAsync(lot, "The customer cancelled the order; the lot went to stock and its certificate must not travel with it", cancellation);
        }
    }

    private async Task ConfirmAsync(Timeline timeline, LotInPlay lot, string production, CancellationToken cancellation)
    {
        await life.NoteAsync(lot, crew.Reviewers[0], "Sieves, balance, division and calculation looked at, tares as usual: no cause in the laboratory. What is left of the test portion looks like the sample.", cancellation);
        await life.AnswerAsync(lot, crew.Reviewers[0], null, cancellation);
        await LaterAsync(timeline, lot, 0.5, 3);
        await life.GoFullAsync(lot, "No cause was found in the laboratory; production is asked", cancellation);
        await LaterAsync(timeline, lot, 1, 5);
        await life.NoteAsync(lot, crew.LaboratoryManager, production, cancellation);
        await life.AssociateAsync(lot, null, "The lots made before and after it on the same mill were tested and conform.", cancellation);
        await LaterAsync(timeline, lot, 0.5, 2);
        await life.ConcludeAsync(lot, InvestigationConclusion.Confirmed, null, "The value stands: no cause in the laboratory, and production explains it.", cancellation);
        await LaterAsync(timeline, lot, 0.5, 2);
    }
}

using ParticleLims.Laboratory.Demonstration.Model;
using ParticleLims.Laboratory.Demonstration.Time;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>The last days, in which work is left for whoever looks around: at the bench, in review, in decisions, in an investigation.</summary>
internal sealed class OpenEnd(LotStories stories, LotLife life, Crew crew, EquipmentRoom room, History history, HistoryClock clock)
{
    /// <summary>Puts the open work on the timeline.</summary>
    public void Write(Timeline timeline, CancellationToken cancellation)
    {
        var today = WorkingTime.DayOf(history.End);
        var (before, yesterday) = (WorkingTime.Before(today, 2), WorkingTime.Before(today, 1));
        timeline.Add(WorkingTime.At(before, 8.4), () => AwaitDecisionAsync(timeline, "GC-45", cancellation));
        timeline.Add(WorkingTime.At(before, 9.6), () => AwaitDecisionAsync(timeline, "MS-90", cancellation));
        timeline.Add(WorkingTime.At(before, 10.8), () => HoldAsync(timeline, cancellation));
        timeline.Add(WorkingTime.At(yesterday, 8.4), () => TestAsync("GC-45", null, Mishap.WeakVacuum, cancellation));
        timeline.Add(WorkingTime.At(yesterday, 9.5), () => TestAsync("MS-90", null, Mishap.BrushOnPan, cancellation));
        timeline.Add(WorkingTime.At(yesterday, 10.5), () => AwaitReplicateAsync(cancellation));
        timeline.Add(WorkingTime.At(yesterday, 11.5), () => stories.ArriveAsync(ProductLine.Of("PS-63"), null, cancellation));
        timeline.Add(WorkingTime.At(yesterday, 13), () => stories.ArriveAsync(ProductLine.Of("GC-45"), null, cancellation));
        timeline.Add(history.End.AddMinutes(-55), () => InterruptAsync(timeline, cancellation));
    }

    private async Task AwaitDecisionAsync(Timeline timeline, string product, CancellationToken cancellation)
    {
        var lot = await TestAsync(product, null, Mishap.None, cancellation);
        await stories.LaterAsync(timeline, lot, 1, 2);
        for (var replicate = 1; replicate <= lot.RunIds.Count; replicate++)
        {
            await life.AcceptAsync(lot, replicate, cancellation);
        }
    }

    private async Task HoldAsync(Timeline timeline, CancellationToken cancellation)
    {
        var lot = await TestAsync("PS-63", new LogNormalPowder(31.9, 0.44), Mishap.None, cancellation);
        await stories.LaterAsync(timeline, lot, 1, 2);
        await life.AcceptAsync(lot, 1, cancellation);
        await life.NoteAsync(lot, crew.Reviewers[1], "Sieves and balance looked at: no fault so far. The sifter's screen at the mill is to be looked at next.", cancellation);
    }

    private async Task AwaitReplicateAsync(CancellationToken cancellation)
    {
        var lot = await stories.ArriveAsync(ProductLine.Of("SB-500"), null, cancellation);
        await life.TestAsync(lot, 1, Mishap.None, 1, cancellation);
    }

    private async Task InterruptAsync(Timeline timeline, CancellationToken cancellation)
    {
        var lot = await stories.ArriveAsync(ProductLine.Of("MS-90"), null, cancellation);
        await room.CheckAsync(room.Bench, crew.Technicians[0], cancellation);
        await timeline.UntilAsync(history.End.AddMinutes(-27));
        await life.TestAsync(lot, 1, Mishap.Interrupted, 1, cancellation);
        clock.MoveTo(history.End);
    }

    private async Task<LotInPlay> TestAsync(string product, Powder? powder, Mishap mishap, CancellationToken cancellation)
    {
        var lot = await stories.ArriveAsync(ProductLine.Of(product), powder, cancellation);
        for (var replicate = 1; replicate <= lot.RunIds.Count; replicate++)
        {
            await life.TestAsync(lot, replicate, mishap, 1, cancellation);
        }

        return lot;
    }
}

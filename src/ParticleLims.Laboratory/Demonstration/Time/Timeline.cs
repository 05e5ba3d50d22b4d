namespace ParticleLims.Laboratory.Demonstration.Time;

/// <summary>
/// Plays many stories in the order of time. A story is a method that waits with <see cref="UntilAsync"/>; only one of them goes on at a
/// time, always the one whose instant is next, and the clock is moved to it. The same stories are played in the same order each time.
/// </summary>
internal sealed class Timeline(HistoryClock clock)
{
    private readonly PriorityQueue<TaskCompletionSource, (long Ticks, long Order)> waiting = new();
    private TaskCompletionSource turn = new();
    private long order;

    /// <summary>Puts a story on the timeline.</summary>
    public void Add(DateTimeOffset at, Func<Task> story) => _ = TellAsync(Wait(at), story);

    /// <summary>The story that calls this goes on at that instant.</summary>
    public Task UntilAsync(DateTimeOffset at)
    {
        var told = Wait(at);
        turn.TrySetResult();
        return told;
    }

    /// <summary>Plays until every story is told. The first one that fails ends it.</summary>
    public async Task PlayAsync(Action<DateTimeOffset> progress, CancellationToken cancellation)
    {
        while (waiting.TryDequeue(out var next, out var at))
        {
            cancellation.ThrowIfCancellationRequested();
            clock.MoveTo(new DateTimeOffset(at.Ticks, TimeSpan.Zero));
            progress(clock.Now);
            turn = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            next.SetResult();
            await turn.Task;
        }
    }

    private Task Wait(DateTimeOffset at)
    {
        var told = new TaskCompletionSource();
        waiting.Enqueue(told, (at.UtcTicks, order++));
        return told.Task;
    }

    private async Task TellAsync(Task begin, Func<Task> story)
    {
        await begin;
        try
        {
            await story();
            turn.TrySetResult();
        }
        catch (Exception fault)
        {
            turn.TrySetException(fault);
        }
    }
}

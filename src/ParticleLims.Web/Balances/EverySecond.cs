namespace ParticleLims.Web.Balances;

/// <summary>Looks again each second, for what grows old by itself.</summary>
internal static class EverySecond
{
    /// <summary>Does it until cancelled.</summary>
    public static async Task DoAsync(TimeProvider clock, Func<Task> look, CancellationToken cancellation)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromSeconds(1), clock);
        try
        {
            while (await timer.WaitForNextTickAsync(cancellation))
            {
                await look();
            }
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            // The page was left.
        }
    }
}

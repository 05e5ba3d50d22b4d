namespace ParticleLims.Instruments.Connections;

/// <summary>How patiently a balance is reached for.</summary>
public sealed record BalanceConnectionOptions
{
    /// <summary>How long an attempt to connect may take.</summary>
    public TimeSpan ConnectTimeout { get; init; } = TimeSpan.FromSeconds(3);

    /// <summary>The wait after the first failure; it doubles with each further one.</summary>
    public TimeSpan FirstRetryDelay { get; init; } = TimeSpan.FromMilliseconds(250);

    /// <summary>The longest wait between attempts.</summary>
    public TimeSpan LongestRetryDelay { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Told of an exception that a subscriber threw; the subscriber is then left out, the others go on.</summary>
    public Action<Exception>? SubscriberFailed { get; init; }

    /// <summary>The wait after so many failures in a row, from 1.</summary>
    public TimeSpan RetryDelay(int failures)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(failures, 1);
        var factor = Math.Pow(2, Math.Min(failures - 1, 30));
        var delay = FirstRetryDelay.TotalMilliseconds * factor;
        return TimeSpan.FromMilliseconds(Math.Min(delay, LongestRetryDelay.TotalMilliseconds));
    }
}

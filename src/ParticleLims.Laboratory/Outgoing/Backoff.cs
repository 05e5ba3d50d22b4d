namespace ParticleLims.Laboratory.Outgoing;

/// <summary>How long a message waits after a try that failed: one minute, then twice as long each time, six hours at most. Our own choice; together about a day.</summary>
public static class Backoff
{
    /// <summary>After so many tries in a row it is given up until somebody asks for it again.</summary>
    public const int MostTries = 12;

    private static readonly TimeSpan Longest = TimeSpan.FromHours(6);

    /// <summary>The wait after a number of failed tries; null when it is given up.</summary>
    public static TimeSpan? After(int tries) => tries >= MostTries ? null : TimeSpan.FromMinutes(Math.Min(Math.Pow(2, Math.Max(0, tries - 1)), Longest.TotalMinutes));
}

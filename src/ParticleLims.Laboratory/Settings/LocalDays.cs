namespace ParticleLims.Laboratory.Settings;

/// <summary>When days begin.</summary>
public static class LocalDays
{
    /// <summary>The instant at which a day begins in a time zone; where the clock is put forward over it, the first instant after.</summary>
    /// <param name="zone">The time zone.</param>
    /// <param name="day">The day.</param>
    public static DateTimeOffset StartOf(this TimeZoneInfo zone, DateOnly day)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        while (zone.IsInvalidTime(midnight))
        {
            midnight = midnight.AddMinutes(15);
        }

        return new DateTimeOffset(midnight, zone.GetUtcOffset(midnight)).ToUniversalTime();
    }
}

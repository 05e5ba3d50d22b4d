namespace ParticleLims.Laboratory.Demonstration.Time;

/// <summary>When people work: Monday to Friday, 8 to 17 o'clock by the laboratory's own time.</summary>
internal static class WorkingTime
{
    public const string ZoneName = "Europe/Dublin";
    private const int From = 8;
    private const int To = 17;
    private static readonly TimeZoneInfo Zone = TimeZoneInfo.FindSystemTimeZoneById(ZoneName);

    /// <summary>The laboratory's day at an instant.</summary>
    public static DateOnly DayOf(DateTimeOffset instant) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(instant, Zone).DateTime);

    /// <summary>Whether people come in on a day.</summary>
    public static bool IsWorkday(DateOnly day) => day.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday);

    /// <summary>The workday so many workdays before a day, which itself does not count.</summary>
    public static DateOnly Before(DateOnly day, int workdays)
    {
        while (workdays > 0)
        {
            day = day.AddDays(-1);
            workdays -= IsWorkday(day) ? 1 : 0;
        }

        return day;
    }

    /// <summary>An hour of a day by the laboratory's clock.</summary>
    public static DateTimeOffset At(DateOnly day, double hour)
    {
        var local = day.ToDateTime(TimeOnly.MinValue).AddHours(hour);
        return new DateTimeOffset(local, Zone.GetUtcOffset(local)).ToUniversalTime();
    }

    /// <summary>So many hours of work later.</summary>
    public static DateTimeOffset After(DateTimeOffset instant, double hours)
    {
        var local = TimeZoneInfo.ConvertTime(instant, Zone).DateTime;
        var (day, hour) = (DateOnly.FromDateTime(local), local.TimeOfDay.TotalHours);
        hour = Math.Max(hour, From) + hours;
        while (hour > To || !IsWorkday(day))
        {
            hour = IsWorkday(day) ? From + Math.Max(0, hour - To) : From;
            day = day.AddDays(1);
        }

        return At(day, hour);
    }
}

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Days from Monday to Friday; holidays are not known.</summary>
public static class WorkingDays
{
    /// <summary>The day so many working days after another.</summary>
    public static DateOnly After(DateOnly day, int workingDays)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(workingDays);
        while (workingDays > 0)
        {
            day = day.AddDays(1);
            workingDays -= day.DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday ? 0 : 1;
        }

        return day;
    }
}

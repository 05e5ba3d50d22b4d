using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>Until when a look or a calibration may count: a slip of the year must not put an item beyond every inspection.</summary>
public static class NextDue
{
    /// <summary>So many days at most, the longest interval between two inspections of a sieve too (common practice, no source).</summary>
    public const int MostDays = 1_100;

    /// <summary>The last day that may be set on a day.</summary>
    public static DateOnly Latest(DateOnly today) => today.AddDays(MostDays);

    /// <summary>Refuses a day that is over, and one that lies too far ahead.</summary>
    internal static void Require(DateOnly dueOn, DateOnly today)
    {
        if (dueOn < today || dueOn > Latest(today))
        {
            throw new RefusedException("due-day", string.Create(CultureInfo.InvariantCulture, $"The next inspection or calibration lies between {today:yyyy-MM-dd} and {Latest(today):yyyy-MM-dd}, {MostDays} days ahead; {dueOn:yyyy-MM-dd} does not."), "dueOn");
        }
    }

    /// <summary>Refuses to let what stands by its certificate into service without one, or for longer than that counts: no look prolongs it.</summary>
    internal static void RequireCertificate(IEquipment item, DateOnly dueOn)
    {
        if (item.StandsByCertificate && !(dueOn <= item.InspectionDueOn))
        {
            throw new RefusedException("by-certificate", item.InspectionDueOn is { } until
                ? string.Create(CultureInfo.InvariantCulture, $"The certificate of the {item.Label} counts until {until:yyyy-MM-dd}, and no look prolongs it. Enter a new certificate first.")
                : $"The {item.Label} has no certificate yet. Enter it first.", "dueOn");
        }
    }
}

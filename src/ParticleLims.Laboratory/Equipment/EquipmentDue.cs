using System.Globalization;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>Whether something has to be done about a piece of equipment; computed from its state and its date, never stored.</summary>
public enum EquipmentDue
{
    /// <summary>Its date has passed: it may not be used.</summary>
    Overdue,
    /// <summary>Registered and not yet commissioned.</summary>
    ToCommission,
    /// <summary>Its date comes within <see cref="EquipmentDues.DaysAhead"/> days.</summary>
    Soon,
    /// <summary>Its date comes later.</summary>
    Later,
    /// <summary>Out of service or scrapped: nothing falls due until it returns.</summary>
    Nothing,
}

/// <summary>What falls due, and in which words.</summary>
public static class EquipmentDues
{
    /// <summary>So many days ahead it is announced, so that on the last day of a month the first of the next is seen too.</summary>
    public const int DaysAhead = 30;

    /// <summary>What has to be done about an item on that day. The day of the date itself still counts.</summary>
    public static EquipmentDue Due(this IEquipment item, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.State switch
        {
            EquipmentState.AwaitingCommissioning => EquipmentDue.ToCommission,
            EquipmentState.OutOfService or EquipmentState.Scrapped => EquipmentDue.Nothing,
            _ when item.InspectionDueOn is not { } on => EquipmentDue.Overdue,
            _ when item.InspectionDueOn < today => EquipmentDue.Overdue,
            _ when item.InspectionDueOn <= today.AddDays(DaysAhead) => EquipmentDue.Soon,
            _ => EquipmentDue.Later,
        };
    }

    /// <summary>Whether it belongs to what a laboratory manager has to see to now.</summary>
    public static bool NeedsEyes(this EquipmentDue due) => due is EquipmentDue.Overdue or EquipmentDue.ToCommission or EquipmentDue.Soon;

    /// <summary>What a label on the item says of its state: until when it may be used, or why it may not. True on the day on which it is printed; the register is the word that counts.</summary>
    public static string LabelWords(this IEquipment item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.State != EquipmentState.InService ? item.State.Words().ToUpperInvariant()
            : item.InspectionDueOn is { } on ? string.Create(CultureInfo.InvariantCulture, $"may be used until {on:yyyy-MM-dd}") : "DO NOT USE: no date was ever set";
    }

    /// <summary>The day in words: "overdue since 2026-02-27", "due 2026-03-20".</summary>
    public static string DueWords(this IEquipment item, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Due(today) switch
        {
            EquipmentDue.Overdue when item.InspectionDueOn is null => "overdue: no date was ever set",
            EquipmentDue.Overdue => string.Create(CultureInfo.InvariantCulture, $"overdue since {item.InspectionDueOn:yyyy-MM-dd}"),
            EquipmentDue.ToCommission => "to be commissioned",
            EquipmentDue.Nothing => "–",
            _ => string.Create(CultureInfo.InvariantCulture, $"due {item.InspectionDueOn:yyyy-MM-dd}"),
        };
    }
}

using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>The state of a sieve or a balance. "Due" and "overdue" are computed, not stored.</summary>
public enum EquipmentState
{
    AwaitingCommissioning,
    InService,
    OutOfService,
    Scrapped,
}

/// <summary>A numbered piece of equipment with a state.</summary>
public interface IEquipment
{
    Guid Id { get; }
    string Serial { get; }

    /// <summary>What it is, for people: "63 µm sieve TS-063-2".</summary>
    string Label { get; }

    /// <summary>Who made it, as on its plate; null where nobody wrote it down.</summary>
    string? Maker { get; set; }

    /// <summary>The maker's model or type; null where nobody wrote it down.</summary>
    string? Model { get; set; }
    EquipmentState State { get; set; }

    /// <summary>Why it is out of service or scrapped.</summary>
    string? StateReason { get; set; }

    /// <summary>The last day on which its inspection or calibration still counts.</summary>
    DateOnly? InspectionDueOn { get; set; }

    /// <summary>When it was last found fit: commissioned, inspected or returned.</summary>
    DateTimeOffset? InspectedAt { get; set; }

    /// <summary>Whether only a certificate says that it is good, and until when; a look does not.</summary>
    bool StandsByCertificate => false;
}

/// <summary>States in words, and what may follow what.</summary>
public static class EquipmentStates
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this EquipmentState state) => state switch
    {
        EquipmentState.AwaitingCommissioning => "awaiting commissioning",
        EquipmentState.InService => "in service",
        EquipmentState.OutOfService => "out of service",
        EquipmentState.Scrapped => "scrapped",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };

    /// <summary>Why the item must not be used today, and who can put it right; null when it may.</summary>
    public static string? UnfitReason(this IEquipment item, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(item);
        if (item.State != EquipmentState.InService)
        {
            var why = item.StateReason is { } reason ? $" ({reason})" : string.Empty;
            return $"The {item.Label} is {item.State.Words()}{why}. Take another one{WayBack(item.State)}.";
        }

        return item.InspectionDueOn < today
            ? $"The {item.Label} was due for inspection on {item.InspectionDueOn:yyyy-MM-dd}. Take another one; the laboratory manager can inspect it."
            : null;
    }

    private static string WayBack(EquipmentState state) => state switch
    {
        EquipmentState.AwaitingCommissioning => "; the laboratory manager can commission it",
        EquipmentState.OutOfService => "; the laboratory manager can put it back",
        _ => string.Empty,
    };

    /// <summary>A piece of equipment that is still kept: everything but marking it as failed, and adding a document, ends when it is scrapped.</summary>
    internal static async Task<T> FindKeptAsync<T>(this DeedScope scope, Guid id, string what, CancellationToken cancellation)
        where T : class, IEquipment
    {
        var item = await scope.FindAsync<T>(id, what, cancellation);
        item.RequireKept();
        return item;
    }

    /// <summary>Refuses what is scrapped.</summary>
    internal static void RequireKept(this IEquipment item)
    {
        if (item.State == EquipmentState.Scrapped)
        {
            throw new RefusedException("equipment-state", $"The {item.Label} is scrapped; nothing is done with it any more.");
        }
    }

    internal static void Move(this IEquipment item, EquipmentState to, string? reason, params EquipmentState[] from)
    {
        if (!from.Contains(item.State))
        {
            throw new RefusedException("equipment-state", $"The {item.Label} is {item.State.Words()}; it cannot become {to.Words()}.");
        }

        (item.State, item.StateReason) = (to, reason?.Trim());
    }
}

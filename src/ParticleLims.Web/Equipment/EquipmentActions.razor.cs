using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Equipment;

/// <summary>What can be done in the life of a piece of equipment.</summary>
public enum EquipmentDeed
{
    Commission,
    Inspect,
    Stop,
    Return,
    Scrap,
}

/// <summary>The deeds that an item's state and the person's permissions allow.</summary>
public sealed partial class EquipmentActions<T>
{
    private MudForm form = null!;
    private EquipmentDeed? opened;
    private string words = string.Empty;
    private DateOnly? dueOn;

    /// <summary>The sieve or the balance.</summary>
    [Parameter, EditorRequired] public T Item { get; set; } = null!;

    /// <summary>Raised after a deed, so that the page shows what is now.</summary>
    [Parameter] public EventCallback Done { get; set; }

    private List<EquipmentDeed> Offered => [.. ((EquipmentDeed[])(Item.State switch
    {
        EquipmentState.AwaitingCommissioning when IsSieve || Item.StandsByCertificate => [EquipmentDeed.Stop],
        EquipmentState.AwaitingCommissioning => [EquipmentDeed.Commission, EquipmentDeed.Stop],
        EquipmentState.InService when IsSieve || Item.StandsByCertificate => [EquipmentDeed.Stop],
        EquipmentState.InService => [EquipmentDeed.Inspect, EquipmentDeed.Stop],
        EquipmentState.OutOfService => [EquipmentDeed.Return, EquipmentDeed.Scrap],
        _ => [],
    })).Where(deed => By.May(deed == EquipmentDeed.Stop ? Permission.StopEquipment : Permission.KeepEquipment))];

    // A sieve is commissioned and inspected by its list, a check weight by its certificate.
    private static bool IsSieve => typeof(T) == typeof(Laboratory.Sieves.TestSieve);

    private DateOnly? Latest => Item.StandsByCertificate ? Item.InspectionDueOn : NextDue.Latest(Clock.Today);

    /// <inheritdoc />
    protected override Task LoadAsync() => Task.CompletedTask;

    private static bool TakesDate(EquipmentDeed deed) => deed is EquipmentDeed.Commission or EquipmentDeed.Inspect or EquipmentDeed.Return;

    private static string Name(EquipmentDeed deed) => deed switch
    {
        EquipmentDeed.Commission => "Commission",
        EquipmentDeed.Inspect => "Record an inspection",
        EquipmentDeed.Stop => "Take out of service",
        EquipmentDeed.Return => "Return to service",
        _ => "Scrap",
    };

    private static string WordsLabel(EquipmentDeed deed) => TakesDate(deed) ? "On what evidence" : "Why";

    private static string Explained(EquipmentDeed deed) => deed switch
    {
        EquipmentDeed.Commission => "After its first inspection it may be used. Name the document, or what was looked at and found.",
        EquipmentDeed.Inspect => "For an inspection or calibration that was passed. One that failed: take it out of service.",
        EquipmentDeed.Stop => "At once and by anyone: if in doubt, out. No run can take it until it is returned.",
        EquipmentDeed.Return => "With the evidence that it is fit again; both stay in its history.",
        _ => "It can never be used again. It stays in the register with its history.",
    };

    private void Open(EquipmentDeed deed) => (opened, words, dueOn, Refusal) = (deed, string.Empty, Item.StandsByCertificate && Item.InspectionDueOn >= Clock.Today ? Item.InspectionDueOn : null, null);

    private async Task CarryOutAsync()
    {
        await ValidateAsync(form);
        if (form.IsValid && opened is { } deed && await DoAsync(() => CarryOutAsync(deed), $"{Item.Label}: done."))
        {
            opened = null;
            await Done.InvokeAsync();
        }
    }

    private Task<bool> CarryOutAsync(EquipmentDeed deed) => deed switch
    {
        EquipmentDeed.Commission => Life.CommissionAsync(Actor, Item.Id, words, dueOn!.Value, Item.Version, Leaving),
        EquipmentDeed.Inspect => Life.InspectAsync(Actor, Item.Id, words, dueOn!.Value, Item.Version, Leaving),
        EquipmentDeed.Stop => Life.StopAsync(Actor, Item.Id, words, Item.Version, Leaving),
        EquipmentDeed.Return => Life.ReturnAsync(Actor, Item.Id, words, dueOn!.Value, Item.Version, Leaving),
        _ => Life.ScrapAsync(Actor, Item.Id, words, Item.Version, Leaving),
    };
}

using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Balances;

namespace ParticleLims.Web.Readings;

/// <summary>Adds a reading format or changes one.</summary>
public sealed partial class ReadingFormatForm
{
    // In the order of the laboratory's choices.
    private static readonly string[] WithoutMark = ["is refused", "is stable", "is unstable"];
    private static readonly string[] EachLines = ["one of many that it sends by itself or when asked", "a print: sent once, at the press of its print key"];
    private static readonly string[] LineEnds = ["carriage return and line feed", "line feed", "carriage return"];
    private static readonly string[] DecimalMarks = ["point, 312.345", "comma, 312,345"];
    private static readonly string[] Checks = ["none", "CRC-16 in the part check"];
    private static readonly string[] FirstLines = ["may be cut and is not used", "is whole and is read"];

    private MudForm form = null!;
    private ReadingFormatSheet sheet = new(null);
    private string key = string.Empty;
    private string pasted = string.Empty;
    private string serial = string.Empty;
    private string reason = string.Empty;

    /// <summary>The format to change; null for a new one.</summary>
    [Parameter] public ReadingFormat? Format { get; set; }

    /// <summary>Called after it was saved.</summary>
    [Parameter] public EventCallback Done { get; set; }

    /// <summary>Called when nothing is to be saved.</summary>
    [Parameter] public EventCallback Cancelled { get; set; }

    [Inject] private ReadingFormatKeeping Keeping { get; set; } = null!;

    private string Heading => Format is null ? "Add a reading format" : $"Change {Format.Name}";

    // The name has a field of its own that says when it is missing.
    private ReadingFormatCard Card => sheet.Card() is { Name.Length: > 0 } card ? card : sheet.Card() with { Name = "new" };

    private IReadOnlyList<string> Problems => KnownFormats.Of(Card).Problems();

    private bool TellsSerial => KnownFormats.Of(Card).TellsSerial;

    private IReadOnlyList<TriedLine> Tried => LineTrial.Of(Card, pasted, serial);

    /// <inheritdoc />
    protected override Task LoadAsync()
    {
        key = Guid.CreateVersion7(Clock.Now).ToString("N");
        sheet = new ReadingFormatSheet(Format);
        return Task.CompletedTask;
    }

    private async Task SaveAsync()
    {
        await ValidateAsync(form);
        if (!form.IsValid)
        {
            return;
        }

        var card = sheet.Card();
        if (await DoAsync(() => Format is null ? Keeping.AddAsync(Actor, card, key, Leaving) : Keeping.ChangeAsync(Actor, Format.Id, card, reason, Format.Version, Leaving), $"{card.Name} saved."))
        {
            await Done.InvokeAsync();
        }
    }
}

namespace ParticleLims.Web.Exchange;

/// <summary>A column of a register's file, the same for the import, the template and the export.</summary>
/// <param name="Name">The field's term.</param>
/// <param name="Unit">The unit of its numbers; null where they have none.</param>
/// <param name="Member">The input's name in the laboratory's refusals.</param>
/// <param name="Help">What stands in it.</param>
internal sealed record ExchangeColumn(string Name, string? Unit, string Member, string Help)
{
    /// <summary>The most characters of a text.</summary>
    public const int UsualLongest = 120;

    /// <summary>Whether a row cannot do without it.</summary>
    public bool Required { get; init; }

    /// <summary>The most characters of a text.</summary>
    public int Longest { get; init; } = UsualLongest;

    /// <summary>Whether a spreadsheet must keep it as text.</summary>
    public bool IsText { get; init; }

    /// <summary>Whether an import reads it; what only an export writes is passed over.</summary>
    public bool IsRead { get; init; } = true;

    /// <summary>As the first row has it: "Nominal aperture (µm)".</summary>
    public string Title => Unit is null ? Name : $"{Name} ({Unit})";

    /// <summary>A title as it is compared: without case, doubled blanks, and the kinds of the letter µ and of the apostrophe.</summary>
    public static string Plain(string title) =>
        string.Join(' ', title.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace('\u03BC', 'µ').Replace("(um)", "(µm)", StringComparison.OrdinalIgnoreCase).Replace('\u2019', '\'').ToUpperInvariant();
}

/// <summary>The columns of an item's life, alike for every kind of equipment.</summary>
internal static class LifeColumns
{
    public static ExchangeColumn State { get; } = new("State", null, "state", "in service, awaiting commissioning, out of service or scrapped. An item that was scrapped is left out; one out of service comes in out of service; no other state is taken over.");
    public static ExchangeColumn Reason { get; } = new("State reason", null, "stateReason", "Why it is out of service.") { IsText = true, Longest = 400 };
    public static ExchangeColumn Inspected { get; } = new("Last inspected or calibrated on", null, "inspectedOn", "A day. It is told in the item's history.");
    public static ExchangeColumn Due { get; } = new("Next due on", null, "nextDueOn", "A day. It is told in the item's history.");

    public static IReadOnlyList<ExchangeColumn> All { get; } = [State, Reason, Inspected, Due];
}

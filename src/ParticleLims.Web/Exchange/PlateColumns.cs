using ParticleLims.Laboratory.Equipment;

namespace ParticleLims.Web.Exchange;

/// <summary>The columns of a maker's plate, alike for every kind of equipment.</summary>
internal static class PlateColumns
{
    public static ExchangeColumn Maker { get; } = new("Maker", null, "maker", "As on its plate or its document.") { IsText = true, Longest = TypePlate.Longest };
    public static ExchangeColumn Model { get; } = new("Model or type", null, "model", "The maker's.") { IsText = true, Longest = TypePlate.Longest };
    public static ExchangeColumn Software { get; } = new("Software version", null, "software", "Of its software or firmware.") { IsText = true, Longest = TypePlate.Longest };

    /// <summary>Of what has no program inside.</summary>
    public static IReadOnlyList<ExchangeColumn> Plain { get; } = [Maker, Model];

    /// <summary>Of what has one.</summary>
    public static IReadOnlyList<ExchangeColumn> WithSoftware { get; } = [Maker, Model, Software];

    /// <summary>What a row says of it.</summary>
    public static TypePlate Read(RowReader cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        return new TypePlate(cells.Text(Maker), cells.Text(Model), cells.Text(Software)).Trimmed();
    }

    /// <summary>Adds the cells of an item.</summary>
    public static void Tell(IEquipment item, Dictionary<ExchangeColumn, TableCell> cells)
    {
        ArgumentNullException.ThrowIfNull(cells);
        var plate = TypePlate.Of(item);
        (cells[Maker], cells[Model], cells[Software]) = (TableCell.Of(plate.Maker), TableCell.Of(plate.Model), TableCell.Of(plate.Software));
    }
}

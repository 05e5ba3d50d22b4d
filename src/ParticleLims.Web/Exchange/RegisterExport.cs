using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Exchange;

/// <summary>The whole equipment register as tables, a sheet for each kind; what an import reads stands in the same columns.</summary>
internal static class RegisterExport
{
    /// <summary>The tables by the names of their CSV files.</summary>
    public static IReadOnlyDictionary<string, TableSheet> Sheets(EquipmentRegister register, LaboratoryClock clock)
    {
        ArgumentNullException.ThrowIfNull(register);
        var told = new TellingCells(clock);
        return new Dictionary<string, TableSheet>(StringComparer.Ordinal)
        {
            ["test-sieves"] = Sheet("Test sieves", SieveColumns.All, register.Sieves.Select(entry => SieveTelling.Cells(entry, told))),
            ["balances"] = Sheet("Balances", BalanceColumns.All, register.Balances.Select(entry => BalanceTelling.Cells(entry, told))),
            ["check-weights"] = Sheet("Check weights", CheckWeightColumns.All, register.Weights.Select(entry => CheckWeightTelling.Cells(entry, told))),
            ["sieving-units"] = Sheet("Sieving units", SievingUnitColumns.All, register.Units.Select(unit => SievingUnitColumns.Cells(unit, told))),
            ["unit-checks"] = Sheet("Checks of sieving units", UnitCheckTelling.Columns, register.UnitChecks.Select(check => UnitCheckTelling.Cells(check, register.Units))),
            ["reference-materials"] = Sheet("Reference materials", ReferenceMaterialColumns.All, register.Materials.Select(ReferenceMaterialColumns.Cells)),
        };
    }

    private static TableSheet Sheet(string title, IReadOnlyList<ExchangeColumn> columns, IEnumerable<Dictionary<ExchangeColumn, TableCell>> rows) =>
        TableSheet.Of(title, rows.Select(IReadOnlyList<TableCell> (row) => [.. columns.Select(column => row.GetValueOrDefault(column, TableCell.Empty))]).Prepend([.. columns.Select(column => TableCell.Of(column.Title))])) with
        {
            TextColumns = columns.Index().Where(column => column.Item.IsText).Select(column => column.Index).ToHashSet(),
        };
}

/// <summary>What is told alike of every kind of equipment.</summary>
internal sealed class TellingCells(LaboratoryClock clock)
{
    /// <summary>What has to be done, in words: "due 2026-03-20".</summary>
    public static ExchangeColumn DueWords { get; } = new("What is due", null, "dueWords", "On the day of the export.") { IsRead = false, IsText = true };

    /// <summary>The laboratory's day of an instant.</summary>
    public TableCell Day(DateTimeOffset? at) => at is { } instant ? TableCell.Of(clock.DayOf(instant)) : TableCell.Empty;

    /// <summary>Adds an item's life.</summary>
    public Dictionary<ExchangeColumn, TableCell> With(IEquipment item, Dictionary<ExchangeColumn, TableCell> cells)
    {
        PlateColumns.Tell(item, cells);
        cells[LifeColumns.State] = TableCell.Of(item.State.Words());
        cells[LifeColumns.Reason] = TableCell.Of(item.StateReason);
        cells[LifeColumns.Inspected] = Day(item.InspectedAt);
        cells[LifeColumns.Due] = TableCell.Of(item.InspectionDueOn);
        cells[DueWords] = TableCell.Of(item.DueWords(clock.Today));
        return cells;
    }
}

using ParticleLims.Laboratory.Exchange;

namespace ParticleLims.Web.Exchange;

/// <summary>How one kind of equipment stands in a file.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Title">The sheet's name.</param>
/// <param name="FileName">The name of its CSV file, without ending.</param>
/// <param name="Columns">Its columns in their order.</param>
/// <param name="Telling">Columns of which one tells that a table is of this kind, where no sheet's name does.</param>
/// <param name="Read">Reads a row.</param>
internal sealed record RegisterSheet(RegisterKind Kind, string Title, string FileName, IReadOnlyList<ExchangeColumn> Columns, IReadOnlyList<ExchangeColumn> Telling, Func<RowPlace, RowReader, RegisterRow> Read)
{
    /// <summary>All kinds, in the order of their sheets.</summary>
    public static IReadOnlyList<RegisterSheet> All { get; } =
    [
        new(RegisterKind.TestSieves, "Test sieves", "test-sieves", SieveColumns.All, [SieveColumns.Aperture, SieveColumns.Frame], SieveColumns.Read),
        new(RegisterKind.Balances, "Balances", "balances", BalanceColumns.All, [BalanceColumns.Readability, BalanceColumns.Capacity], BalanceColumns.Read),
        new(RegisterKind.CheckWeights, "Check weights", "check-weights", CheckWeightColumns.All, [CheckWeightColumns.Nominal, CheckWeightColumns.Class], CheckWeightColumns.Read),
        new(RegisterKind.SievingUnits, "Sieving units", "sieving-units", SievingUnitColumns.All, [SievingUnitColumns.Kind, SievingUnitColumns.GaugeHost], SievingUnitColumns.Read),
        new(RegisterKind.ReferenceMaterials, "Reference materials", "reference-materials", ReferenceMaterialColumns.All, [ReferenceMaterialColumns.Batch, ReferenceMaterialColumns.Points], ReferenceMaterialColumns.Read),
    ];

    /// <summary>The sheet of a kind.</summary>
    public static RegisterSheet Of(RegisterKind kind) => All.Single(sheet => sheet.Kind == kind);

    /// <summary>The title of the column that a refusal is about; null where it is about the row.</summary>
    public string? TitleOf(string? member) => Columns.FirstOrDefault(column => column.Member == member)?.Title;

    /// <summary>The empty table to fill in: names of columns and nothing below.</summary>
    public TableSheet Template => TableSheet.Of(Title, [[.. Columns.Where(column => column.IsRead).Select(column => TableCell.Of(column.Title))]]) with
    {
        TextColumns = Columns.Where(column => column.IsRead).Index().Where(column => column.Item.IsText).Select(column => column.Index).ToHashSet(),
    };
}

using ParticleLims.Analysis.Balances;
using ParticleLims.Laboratory.Exchange;

namespace ParticleLims.Web.Exchange;

/// <summary>What an export tells of a check weight.</summary>
internal static class CheckWeightTelling
{
    public static ExchangeColumn Permitted { get; } = new("Maximum permissible error", "mg", "permitted", string.Empty) { IsRead = false };

    /// <summary>The columns that only an export writes.</summary>
    public static IReadOnlyList<ExchangeColumn> Columns { get; } = [Permitted, TellingCells.DueWords];

    /// <summary>The cells of a weight.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(CheckWeightEntry entry, TellingCells told)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var (weight, calibrated) = (entry.Weight, entry.Calibrated);
        return told.With(weight, new Dictionary<ExchangeColumn, TableCell>
        {
            [CheckWeightColumns.Serial] = TableCell.Of(weight.Serial), [CheckWeightColumns.Nominal] = TableCell.Of(weight.Nominal.Grams), [CheckWeightColumns.Class] = TableCell.Of(weight.Class.ToString()),
            [CheckWeightColumns.Place] = TableCell.Of(weight.Place), [Permitted] = TableCell.Of(WeightTolerances.Of(weight.Nominal, weight.Class)?.Micrograms / 1_000m),
            [CheckWeightColumns.Certificate] = TableCell.Of(calibrated?.Certificate), [CheckWeightColumns.CalibratedOn] = TableCell.Of(calibrated?.CalibratedOn),
            [CheckWeightColumns.Conventional] = TableCell.Of(calibrated?.ConventionalMass.Grams), [CheckWeightColumns.Uncertainty] = TableCell.Of(calibrated?.ExpandedUncertainty.Micrograms / 1_000m),
            [CheckWeightColumns.ComparedWith] = TableCell.Of(calibrated?.ComparedWith), [CheckWeightColumns.CountsUntil] = TableCell.Of(calibrated?.DueOn),
        });
    }
}

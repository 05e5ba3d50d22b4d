using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Web.Balances;

namespace ParticleLims.Web.Exchange;

/// <summary>What an export tells of a balance.</summary>
internal static class BalanceTelling
{
    public static ExchangeColumn CheckedOn { get; } = Told("Last daily check on", "checkedOn");
    public static ExchangeColumn Weight { get; } = Told("Check weight used", "weightUsed");
    public static ExchangeColumn Nominal { get; } = Told("Mass of the check weight", "checkNominal", "g");
    public static ExchangeColumn Shown { get; } = Told("Shown at the daily check", "checkShown", "g");
    public static ExchangeColumn Passed { get; } = Told("Verdict of the daily check", "checkPassed");
    public static ExchangeColumn TestedOn { get; } = Told("Last repeatability test on", "testedOn");
    public static ExchangeColumn Minimum { get; } = Told("Minimum weight", "minimumWeight", "g");

    /// <summary>The columns that only an export writes.</summary>
    public static IReadOnlyList<ExchangeColumn> Columns { get; } = [CheckedOn, Weight, Nominal, Shown, Passed, TestedOn, Minimum, TellingCells.DueWords];

    /// <summary>The cells of a balance.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(BalanceEntry entry, TellingCells told)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var (balance, seen, tested) = (entry.Balance, entry.Checked, entry.Tested);
        return WithWay(balance, told.With(balance, new Dictionary<ExchangeColumn, TableCell>
        {
            [BalanceColumns.Serial] = TableCell.Of(balance.Serial), [BalanceColumns.Name] = TableCell.Of(balance.Name), [BalanceColumns.Place] = TableCell.Of(balance.Place),
            [BalanceColumns.Readability] = TableCell.Of(balance.Readability.Grams), [BalanceColumns.Capacity] = TableCell.Of(balance.Capacity.Grams), [BalanceColumns.Repeatability] = TableCell.Of(balance.Repeatability.Grams),
            [BalanceColumns.CheckWeight] = TableCell.Of(balance.CheckWeight.Grams), [BalanceColumns.Tolerance] = TableCell.Of(balance.CheckTolerance.Grams), [BalanceColumns.Format] = TableCell.Of(balance.ReadingFormat),
            [BalanceColumns.RepeatDays] = TableCell.Of(balance.RepeatEveryDays),
            [CheckedOn] = TableCell.Of(seen?.Day), [Weight] = TableCell.Of(seen?.WeightSerial), [Nominal] = TableCell.Of(seen?.Nominal.Grams), [Shown] = TableCell.Of(seen?.Shown.Grams),
            [Passed] = TableCell.Of(seen is null ? null : seen.Passed ? "passed" : "failed"), [TestedOn] = told.Day(tested?.At), [Minimum] = TableCell.Of(tested?.MinimumWeight.Grams),
        }));
    }

    private static Dictionary<ExchangeColumn, TableCell> WithWay(Balance balance, Dictionary<ExchangeColumn, TableCell> cells)
    {
        cells[BalanceColumns.Way] = TableCell.Of(balance.WayIn.Words());
        cells[BalanceColumns.Host] = TableCell.Of(balance.Host);
        cells[BalanceColumns.Port] = balance.Port == 0 ? TableCell.Empty : TableCell.Of(balance.Port);
        cells[BalanceColumns.Device] = TableCell.Of(balance.Device);
        cells[BalanceColumns.Baud] = TableCell.Of(balance.BaudRate);
        cells[BalanceColumns.DataBits] = TableCell.Of(balance.DataBits);
        cells[BalanceColumns.Parity] = TableCell.Of(BalanceWords.Of(balance.Parity));
        cells[BalanceColumns.StopBits] = TableCell.Of(balance.StopBits);
        return cells;
    }

    private static ExchangeColumn Told(string name, string member, string? unit = null) => new(name, unit, member, string.Empty) { IsRead = false };
}

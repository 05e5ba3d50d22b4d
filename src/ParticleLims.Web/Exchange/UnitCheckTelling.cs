using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Web.Exchange;

/// <summary>What an export tells of each check of a sieving unit, the newest first.</summary>
internal static class UnitCheckTelling
{
    private static readonly ExchangeColumn Unit = Told("Sieving unit");
    private static readonly ExchangeColumn Checked = Told("What was checked");
    private static readonly ExchangeColumn Day = Figure("On");
    private static readonly ExchangeColumn Indicated = Figure("Set or shown");
    private static readonly ExchangeColumn Measured = Figure("Measured");
    private static readonly ExchangeColumn Symbol = Told("Unit");
    private static readonly ExchangeColumn Off = Figure("Off by (%)");
    private static readonly ExchangeColumn Tolerance = Figure("Allowed off by (%)");
    private static readonly ExchangeColumn Instrument = Told("Measured with");
    private static readonly ExchangeColumn Words = Told("In words");
    private static readonly ExchangeColumn Verdict = Told("Verdict");
    private static readonly ExchangeColumn Person = Told("By");

    /// <summary>The columns.</summary>
    public static IReadOnlyList<ExchangeColumn> Columns { get; } = [Unit, Checked, Day, Indicated, Measured, Symbol, Off, Tolerance, Instrument, Words, Verdict, Person];

    /// <summary>The cells of a check.</summary>
    public static Dictionary<ExchangeColumn, TableCell> Cells(UnitCheck check, IReadOnlyList<SievingUnit> units)
    {
        ArgumentNullException.ThrowIfNull(check);
        var figure = check.Kind.Figure();
        return new Dictionary<ExchangeColumn, TableCell>
        {
            [Unit] = TableCell.Of(units.First(unit => unit.Id == check.UnitId).Serial), [Checked] = TableCell.Of(check.Kind.Words()), [Day] = TableCell.Of(check.Day),
            [Indicated] = CellOf(figure, check.Indicated), [Measured] = CellOf(figure, check.Measured), [Symbol] = TableCell.Of(figure?.Symbol),
            [Off] = check is { Indicated: { } indicated, Measured: { } measured } ? TableCell.Of(decimal.Round(UnitCheck.OffPercent(indicated, measured), 2)) : TableCell.Empty,
            [Tolerance] = TableCell.Of(check.TolerancePercent),
            [Instrument] = TableCell.Of(check.Instrument), [Words] = TableCell.Of(check.Words), [Verdict] = TableCell.Of(check.Passed ? "passed" : "failed"), [Person] = TableCell.Of(check.PersonName),
        };
    }

    private static TableCell CellOf(UnitFigure? figure, long? stored) => figure is not null && stored is { } one ? TableCell.Of(figure.Read(one)) : TableCell.Empty;

    private static ExchangeColumn Told(string name) => Figure(name) with { IsText = true };

    private static ExchangeColumn Figure(string name) => new(name, null, name, string.Empty) { IsRead = false };
}

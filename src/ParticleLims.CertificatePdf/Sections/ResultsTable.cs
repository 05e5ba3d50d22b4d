using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Each limit with what was found, to the printed digits.</summary>
internal static class ResultsTable
{
    private static readonly Lettering _result = Lettering.Body with { Bold = true };
    private static readonly Lettering _conforms = Lettering.Body with { Colour = House.Teal };
    private static readonly Lettering _needsAttention = Lettering.Body with { Colour = House.DarkOchre, Bold = true };

    public static IEnumerable<Piece> Pieces(IReadOnlyList<ResultLine> results, Typesetter type)
    {
        var withUncertainty = results.Any(line => !string.IsNullOrEmpty(line.Uncertainty));
        var columns = Columns(withUncertainty);
        var rows = results.Select(line => Row(line, withUncertainty)).ToList();
        return [Words.Heading("Results", Paper.Left), .. new Table(type, Paper.Left, columns, rows).Pieces()];
    }

    private static List<Column> Columns(bool withUncertainty)
    {
        List<Column> columns =
        [
            new("Unit", 32, Setting.Text, Lettering.Body),
            new("Lower limit", 50, Setting.Number, Lettering.Body),
            new("Upper limit", 50, Setting.Number, Lettering.Body),
            new("Result", 58, Setting.Number, _result),
            .. withUncertainty ? [new Column("Uncertainty", 54, Setting.Number, Lettering.Body)] : Array.Empty<Column>(),
            new("Verdict", 144, Setting.Text, Lettering.Body) { Inset = 8 },
        ];
        return [new("Characteristic", Paper.Width - columns.Sum(column => column.Width), Setting.Text, Lettering.Body), .. columns];
    }

    private static IReadOnlyList<Cell> Row(ResultLine line, bool withUncertainty) =>
    [
        new(line.Characteristic),
        new(line.Unit),
        new(OrDash(line.Lower)),
        new(OrDash(line.Upper)),
        new(line.Result),
        .. withUncertainty ? [new Cell(OrDash(line.Uncertainty))] : Array.Empty<Cell>(),
        Verdict(line.Verdict),
    ];

    private static string OrDash(string? text) => string.IsNullOrWhiteSpace(text) ? "–" : text;

    // The words are the verdict; sign and colour only help the eye.
    private static Cell Verdict(string verdict) => verdict.StartsWith("conforms", StringComparison.OrdinalIgnoreCase)
        ? new Cell(verdict, _conforms, Sign.Disc)
        : new Cell(verdict, _needsAttention, Sign.Triangle);
}

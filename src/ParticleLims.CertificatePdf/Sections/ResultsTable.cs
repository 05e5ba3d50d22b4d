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
        var columns = Columns(withUncertainty, type);
        var rows = results.Select(line => Row(line, withUncertainty, type.Texts["verdict.conforms"])).ToList();
        return [Words.Heading(type.Texts["results"], Paper.Left), .. new Table(type, Paper.Left, columns, rows).Pieces()];
    }

    private static List<Column> Columns(bool withUncertainty, Typesetter type)
    {
        List<Column> columns =
        [
            new(type.Texts["column.unit"], 32, Setting.Text, Lettering.Body),
            new(type.Texts["column.lower"], 50, Setting.Number, Lettering.Body),
            new(type.Texts["column.upper"], 50, Setting.Number, Lettering.Body),
            new(type.Texts["column.result"], 58, Setting.Number, _result),
            .. withUncertainty ? [new Column(type.Texts["column.uncertainty"], 54, Setting.Number, Lettering.Body)] : Array.Empty<Column>(),
            new(type.Texts["column.verdict"], 144, Setting.Text, Lettering.Body) { Inset = 8 },
        ];
        return [new(type.Texts["column.characteristic"], type.Paper.Width - columns.Sum(column => column.Width), Setting.Text, Lettering.Body), .. columns];
    }

    private static IReadOnlyList<Cell> Row(ResultLine line, bool withUncertainty, string conforms) =>
    [
        new(line.Characteristic),
        new(line.Unit),
        new(OrDash(line.Lower)),
        new(OrDash(line.Upper)),
        new(line.Result),
        .. withUncertainty ? [new Cell(OrDash(line.Uncertainty))] : Array.Empty<Cell>(),
        Verdict(line.Verdict, conforms),
    ];

    private static string OrDash(string? text) => string.IsNullOrWhiteSpace(text) ? "–" : text;

    // The words are the verdict; sign and colour only help the eye.
    private static Cell Verdict(string verdict, string conforms) => verdict.StartsWith(conforms, StringComparison.OrdinalIgnoreCase)
        ? new Cell(verdict, _conforms, Sign.Disc)
        : new Cell(verdict, _needsAttention, Sign.Triangle);
}

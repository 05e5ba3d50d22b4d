using ParticleLims.Analysis.ModelFits;
using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>What stands beside the curve.</summary>
/// <param name="Pieces">The sieve table and what is below it; nothing where there are no sieves.</param>
/// <param name="WithNotes">Whether the basis and the single runs are in it.</param>
internal sealed record Aside(IReadOnlyList<Piece> Pieces, bool WithNotes);

/// <summary>The sieve table with the curve at its side, or below it where the table is long.</summary>
internal static class SievesAndCurve
{
    /// <summary>The usual least height of the curve, in points.</summary>
    public const double LeastHeight = 172;

    /// <summary>A curve may be so low where that saves a page.</summary>
    public const double LowHeight = 140;

    /// <summary>The height from which on a curve grows no more: a third of the page.</summary>
    public const double MostHeight = 281;

    private const double TallestAside = 420;
    private const double TallestWithNotes = 215;
    private const int LongestInTheHeading = 40;
    private const double NotesLabelWidth = 44;
    private const double NetHeight = 230;
    private const string CurveField = "curve";

    public static IEnumerable<Piece> Pieces(CertificateItem item, PaperLayout paper, Typesetter type, Aside beside, double curveHeight)
    {
        var common = CommonStandard(item);
        var withCurve = paper.Prints(CurveField);
        var words = withCurve ? "sieves" : "sieves.alone";
        var heading = Words.Heading(common is null ? type.Texts[words] : type.Texts.With(words + ".standard", common), Paper.Left);
        if (!withCurve)
        {
            return item.Sieves.Count == 0 ? [] : [heading, .. TableOf(item, type, type.Paper.Width).Pieces()];
        }

        var aside = beside.Pieces;
        if (Piece.HeightOf(aside) <= TallestAside)
        {
            var room = item.Sieves.Count == 0 ? type.Paper.Width : type.Paper.Width - WidthAside(item, type) - 12;
            var height = Math.Max(curveHeight, Math.Min(Piece.HeightOf(aside), MostHeight));
            return [heading, Piece.Beside([Curve(item, type, room, height)], aside)];
        }

        return [heading, .. TableOf(item, type, type.Paper.Width).Pieces(), Curve(item, type, type.Paper.Width, Math.Max(curveHeight, 215)) with { Before = 8 }];
    }

    /// <summary>The sieve table; the basis and the single runs below it where they find room there.</summary>
    public static Aside AsideOf(CertificateItem item, PaperLayout paper, Typesetter type)
    {
        if (item.Sieves.Count == 0)
        {
            return new Aside([], WithNotes: false);
        }

        var withNotes = TableWithNotes(item, paper, type);
        return paper.Prints(CurveField) && Piece.HeightOf(withNotes) <= TallestWithNotes ? new Aside(withNotes, WithNotes: true) : new Aside(TableOf(item, type, WidthAside(item, type)).Pieces(), WithNotes: false);
    }

    private static IReadOnlyList<Piece> TableWithNotes(CertificateItem item, PaperLayout paper, Typesetter type)
    {
        var width = WidthAside(item, type);
        var notes = Statements.AboutTheSieves(item, paper, new Facts(type, type.Paper.Right - width + 3, width - 3, NotesLabelWidth), type.Texts);
        return [.. TableOf(item, type, width).Pieces(), .. notes.Select((note, i) => i == 0 ? note with { Before = 6 } : note)];
    }

    private static Table TableOf(CertificateItem item, Typesetter type, double width)
    {
        var withStandard = CommonStandard(item) is null;
        var columns = Columns(item, withStandard, type);
        var stretch = width / columns.Sum(column => column.Width);
        var withFraction = WithFraction(item);
        List<IReadOnlyList<Cell>> rows = [.. item.Sieves.Select(sieve => Row(sieve, withStandard, withFraction))];
        if (item.Receiver is { } receiver)
        {
            rows.Add(Row(new SieveLine(type.Texts["receiver"], string.Empty, string.Empty, receiver.Residue, string.Empty, string.Empty) { Fraction = receiver.Fraction }, withStandard, withFraction));
        }

        return new Table(type, type.Paper.Right - width, [.. columns.Select(column => column with { Width = column.Width * stretch })], rows);
    }

    private static double WidthAside(CertificateItem item, Typesetter type) => Columns(item, CommonStandard(item) is null, type).Sum(column => column.Width);

    /// <summary>The standard of all sieves where it is the same, so that it need not stand in every row.</summary>
    private static string? CommonStandard(CertificateItem item) =>
        item.Sieves.Select(sieve => sieve.Standard).Distinct(StringComparer.Ordinal).ToList() is [{ Length: > 0 and <= LongestInTheHeading } only] ? only : null;

    private static bool WithFraction(CertificateItem item) => item.Sieves.Any(sieve => sieve.Fraction is not null);

    private static List<Column> Columns(CertificateItem item, bool withStandard, Typesetter type) =>
    [
        new(type.Texts["column.aperture"], 48, Setting.Number, Lettering.Strong),
        new(type.Texts["column.serial"], withStandard ? 62 : 76, Setting.Text, Lettering.Body) { Inset = 5 },
        .. withStandard ? [new Column(type.Texts["column.standard"], 52, Setting.Text, Lettering.Body)] : Array.Empty<Column>(),
        new(type.Texts["column.residue"], 40, Setting.Number, Lettering.Body),
        .. WithFraction(item)
            ? new Column[] { new(type.Texts["column.fraction"], 42, Setting.Number, Lettering.Body), new(type.Texts["column.cumulative"], 46, Setting.Number, Lettering.Body) }
            : [new Column(type.Texts["column.retained"], 42, Setting.Number, Lettering.Body)],
        new(type.Texts["column.passing"], 40, Setting.Number, Lettering.Body),
    ];

    private static IReadOnlyList<Cell> Row(SieveLine sieve, bool withStandard, bool withFraction) =>
    [
        new(WithoutUnit(sieve.Aperture)), new(sieve.Serial), .. withStandard ? [new Cell(sieve.Standard)] : Array.Empty<Cell>(), new(sieve.Residue),
        .. withFraction ? [new Cell(sieve.Fraction ?? string.Empty)] : Array.Empty<Cell>(), new(sieve.Retained), new(sieve.Passing),
    ];

    // The unit stands in the head of the column.
    private static string WithoutUnit(string aperture) => aperture.EndsWith(" µm", StringComparison.Ordinal) ? aperture[..^3] : aperture;

    /// <summary>The measured points in the Rosin-Rammler net with the fitted line, where there is one.</summary>
    public static IEnumerable<Piece> Net(CertificateItem item, Typesetter type)
    {
        if (item.Curve.RosinRammler is not { } model)
        {
            return [];
        }

        var net = new Net
        {
            Title = type.Texts.With("net.title", item.Product.LotNumber), Points = [.. item.Curve.Points.Select(Point)],
            Lines = [new NetLine("Rosin-Rammler", new FittedLine(Model.RosinRammler, model.SizeMicrometres, model.Slope))],
        };
        return [Figure(NetPlot.RosinRammler(net), type.Paper.Width, NetHeight) with { Before = 8 }];
    }

    private static Piece Curve(CertificateItem item, Typesetter type, double width, double height) => Figure(new DistributionCurvePlot(CurveOf(item, type)), width, height);

    private static Piece Figure(IPlot plot, double width, double height) =>
        new(height, (sheet, y) =>
        {
            using var figure = sheet.Figure(Typesetter.Printable($"{plot.Title}. {plot.Description}"), Paper.Left, y, width, height);
            sheet.Plot(plot, Paper.Left, y, new PlotLayout(width, height, 7));
        });

    private static CurvePoint Point(CurvePointContent point) => new(point.ApertureMicrometres, point.PassingPercent, point.StandardUncertaintyPercent);

    private static DistributionCurve CurveOf(CertificateItem item, Typesetter type)
    {
        var curve = item.Curve;
        return new DistributionCurve
        {
            Title = type.Texts.With("curve.title", item.Product.LotNumber),
            Points = [.. curve.Points.Select(Point)],
            Gates = [.. curve.Gates.Select(gate => new CurveGate(gate.Label, gate.ApertureMicrometres, gate.PassingPercent, gate.Lower, gate.Upper))],
            Percentiles = [.. curve.Percentiles.Select(mark => new PercentileMark(mark.Label, mark.PassingPercent, mark.Micrometres))],
            Model = curve.RosinRammler is { } model ? new FittedLine(Model.RosinRammler, model.SizeMicrometres, model.Slope) : null,
        };
    }
}

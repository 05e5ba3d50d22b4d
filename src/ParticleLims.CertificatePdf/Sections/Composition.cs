using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Puts the sections of a certificate in the order of its template, for one sample or for several, and lays them on pages.</summary>
internal static class Composition
{
    /// <summary>What the end mark stands below is kept with it on one page up to this height, in points.</summary>
    private const double MostKeptWithTheEnd = 300;

    /// <summary>The curve takes what the rest leaves free on a single page; where that is too little, there are more pages, and on the last one stands more than the end mark.</summary>
    public static IReadOnlyList<IReadOnlyList<PlacedPiece>> Lay(Drawn drawn)
    {
        IReadOnlyList<Piece> closing = [.. Statements.AboutTheDocument(drawn.Content, drawn.ContentHash, drawn.Paper, drawn.Type), Statements.EndMark(drawn.Content, drawn.Type)];

        // All but the curve is set once, whatever height the curve takes in the end.
        List<Func<double, IEnumerable<Piece>>> parts =
        [
            Set(Masthead.Pieces(drawn.Content, drawn.Paper, drawn.Logo, drawn.Type, drawn.Times)),
            .. drawn.Content.Further is null ? OfItem(drawn, drawn.Paper.Blocks, drawn.Content.Items[0], drawn.Content.Customer) : Several(drawn),
            Set(closing),
        ];
        var paper = drawn.Type.Paper;
        var (height, pages) = (SievesAndCurve.LeastHeight, At(SievesAndCurve.LeastHeight));
        if (pages.Count > 1 && At(SievesAndCurve.LowHeight) is var low && low.Count < pages.Count)
        {
            (height, pages) = (SievesAndCurve.LowHeight, low);
        }

        if (pages.Count > 1)
        {
            return pages;
        }

        var free = paper.Bottom - Pagination.EndOf(pages[0]);
        var larger = At(Math.Min(height + free, SievesAndCurve.MostHeight));
        return larger.Count == 1 ? larger : pages;

        IReadOnlyList<IReadOnlyList<PlacedPiece>> At(double curveHeight) => Pagination.Lay(WithTheEnd([.. parts.SelectMany(part => part(curveHeight))], closing.Count), Paper.FirstTop, Paper.Top, paper.Bottom);
    }

    /// <summary>Keeps the end mark and the small print with what stands before them, mostly the signatures: a last page with nothing else looks like a mistake.</summary>
    private static List<Piece> WithTheEnd(List<Piece> pieces, int closing)
    {
        var first = Math.Max(0, pieces.Count - closing - 1);
        if (Piece.HeightOf(pieces[first..]) > MostKeptWithTheEnd)
        {
            return pieces;
        }

        for (var i = first; i < pieces.Count - 1; i++)
        {
            pieces[i] = pieces[i] with { KeepWithNext = true };
        }

        return pieces;
    }

    private static Func<double, IEnumerable<Piece>> Set(IEnumerable<Piece> pieces)
    {
        List<Piece> set = [.. pieces];
        return _ => set;
    }

    /// <summary>What speaks of the whole paper stands before all samples or after them, as the template has it.</summary>
    private static IEnumerable<Func<double, IEnumerable<Piece>>> Several(Drawn drawn)
    {
        var (items, type) = (drawn.Content.Items, drawn.Type);
        var ofThePaper = drawn.Paper.Blocks.Where(block => block is PaperLayout.Notes or PaperLayout.Signatures).ToLookup(drawn.Paper.StandsBeforeTheSamples);
        List<string> ofASample = [.. drawn.Paper.Blocks.Where(block => block is not (PaperLayout.Notes or PaperLayout.Signatures))];
        return
        [
            .. OfItem(drawn, ofThePaper[true], items[0], null),
            Set([.. Particulars.Customer(drawn.Content.Customer, type), .. SampleList.Pieces(items, drawn.Paper, type)]),
            .. items.SelectMany((item, i) => (IEnumerable<Func<double, IEnumerable<Piece>>>)[Set([SampleList.Heading(item, i + 1, items.Count, type), .. SampleList.Statement(item, type)]), .. OfItem(drawn, ofASample, item, null)]),
            .. OfItem(drawn, ofThePaper[false], items[0], null),
        ];
    }

    private static IEnumerable<Func<double, IEnumerable<Piece>>> OfItem(Drawn drawn, IEnumerable<string> blocks, CertificateItem item, Party? customer)
    {
        var (paper, type) = (drawn.Paper, drawn.Type);
        var aside = SievesAndCurve.AsideOf(item, paper, type);
        return
        [
            .. blocks.Select(block => block switch
            {
                PaperLayout.Particulars => Set(Particulars.Pieces(item, customer, paper, type, drawn.Times)),
                PaperLayout.Results => Set(ResultsTable.Pieces(item.Results, type)),
                PaperLayout.Sieves => curveHeight => SievesAndCurve.Pieces(item, paper, type, aside, curveHeight),
                PaperLayout.Net => Set(drawn.Content.RosinRammlerNet ? SievesAndCurve.Net(item, type) : []),
                PaperLayout.Testing => Set(Statements.Pieces(item, paper, type, aside.WithNotes)),
                PaperLayout.Notes => Set(Notes.Pieces(paper, type)),
                PaperLayout.Signatures => Set(Signatures.Pieces(drawn.Content, type, drawn.Times)),
                _ => throw new ArgumentOutOfRangeException(nameof(blocks), block, "Not a block."),
            }),
        ];
    }
}

/// <summary>What is drawn, and with what.</summary>
internal sealed record Drawn(CertificateContent Content, string? ContentHash, PaperLayout Paper, Logo? Logo, Typesetter Type, LocalTimes Times);

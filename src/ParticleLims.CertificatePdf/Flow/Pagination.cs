namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Lays pieces on pages before anything is drawn, so that every page can say how many there are.</summary>
internal static class Pagination
{
    private const double Tolerance = 0.01;

    /// <summary>The pieces of each page with their places.</summary>
    /// <param name="pieces">All pieces in reading order.</param>
    /// <param name="firstTop">The upper edge of the room on the first page.</param>
    /// <param name="top">The upper edge on the others.</param>
    /// <param name="bottom">The lower edge on all.</param>
    public static IReadOnlyList<IReadOnlyList<PlacedPiece>> Lay(IReadOnlyList<Piece> pieces, double firstTop, double top, double bottom)
    {
        var pages = new List<List<PlacedPiece>> { new() };
        var y = firstTop;
        foreach (var unit in Units(pieces))
        {
            var needed = Piece.HeightOf(unit) + (pages[^1].Count == 0 ? 0 : unit[0].Before);
            if (pages[^1].Count > 0 && y + needed > bottom + Tolerance)
            {
                pages.Add([]);
                y = top;
                y = PlaceHead(pages[^1], unit[0], y);
            }

            y = Place(pages[^1], unit, y, bottom);
        }

        return pages;
    }

    /// <summary>Where the last piece of a page ends.</summary>
    public static double EndOf(IReadOnlyList<PlacedPiece> page) => page[^1].Top + page[^1].Piece.Height;

    private static double PlaceHead(List<PlacedPiece> page, Piece first, double y)
    {
        if (first.Table?.Head is not { } head || ReferenceEquals(head, first))
        {
            return y;
        }

        page.Add(new PlacedPiece(head, y));
        return y + head.Height;
    }

    private static double Place(List<PlacedPiece> page, List<Piece> unit, double y, double bottom)
    {
        foreach (var piece in unit)
        {
            y += page.Count == 0 ? 0 : piece.Before;
            if (y + piece.Height > bottom + Tolerance && page.Count == 0)
            {
                throw new InvalidOperationException("A piece is taller than a page; it has to be cut before it is laid.");
            }

            page.Add(new PlacedPiece(piece, y));
            y += piece.Height;
        }

        return y;
    }

    private static IEnumerable<List<Piece>> Units(IReadOnlyList<Piece> pieces)
    {
        var unit = new List<Piece>();
        foreach (var piece in pieces)
        {
            unit.Add(piece);
            if (!piece.KeepWithNext)
            {
                yield return unit;
                unit = [];
            }
        }

        if (unit.Count > 0)
        {
            yield return unit;
        }
    }
}

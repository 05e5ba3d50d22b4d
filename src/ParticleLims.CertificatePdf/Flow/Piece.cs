namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Something that stands on one page whole; <paramref name="Draw"/> gets the sheet and the upper edge.</summary>
internal sealed record Piece(double Height, Action<Sheet, double> Draw)
{
    /// <summary>Free space above it, left out at the top of a page.</summary>
    public double Before { get; init; }

    /// <summary>It never stands last on a page while something follows.</summary>
    public bool KeepWithNext { get; init; }

    /// <summary>Pieces of one table have the same object here; on each page they are tagged together.</summary>
    public TableOfPieces? Table { get; init; }

    /// <summary>Several pieces as one that is not torn apart.</summary>
    public static Piece Stack(IReadOnlyList<Piece> pieces) => new(HeightOf(pieces), (sheet, y) => DrawAll(sheet, y, pieces)) { Before = pieces.Count == 0 ? 0 : pieces[0].Before };

    /// <summary>Two stacks side by side as one piece that is not torn apart.</summary>
    public static Piece Beside(IReadOnlyList<Piece> left, IReadOnlyList<Piece> right) => new(Math.Max(HeightOf(left), HeightOf(right)), (sheet, y) =>
    {
        DrawAll(sheet, y, left);
        DrawAll(sheet, y, right);
    });

    public static double HeightOf(IReadOnlyList<Piece> pieces) => pieces.Select((piece, i) => piece.Height + (i == 0 ? 0 : piece.Before)).Sum();

    private static void DrawAll(Sheet sheet, double top, IReadOnlyList<Piece> pieces)
    {
        var placed = new List<PlacedPiece>();
        var y = top;
        foreach (var piece in pieces)
        {
            y += placed.Count == 0 ? 0 : piece.Before;
            placed.Add(new PlacedPiece(piece, y));
            y += piece.Height;
        }

        PlacedPiece.DrawAll(sheet, placed);
    }
}

/// <summary>The rows of one table; its head is repeated on every page that they reach.</summary>
internal sealed class TableOfPieces
{
    public Piece? Head { get; set; }
}

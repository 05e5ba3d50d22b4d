using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>A piece with its place on a page.</summary>
internal sealed record PlacedPiece(Piece Piece, double Top)
{
    /// <summary>Draws pieces of one page in their order; neighbours of the same table stand in one table element.</summary>
    public static void DrawAll(Sheet sheet, IReadOnlyList<PlacedPiece> pieces)
    {
        IDisposable? table = null;
        TableOfPieces? open = null;
        foreach (var (piece, top) in pieces)
        {
            if (piece.Table != open)
            {
                table?.Dispose();
                table = piece.Table is null ? null : sheet.Element(PdfBlockLevelElementTag.Table);
                open = piece.Table;
            }

            piece.Draw(sheet, top);
        }

        table?.Dispose();
    }
}

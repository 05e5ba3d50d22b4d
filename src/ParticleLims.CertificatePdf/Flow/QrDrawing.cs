using PdfSharp.Drawing;
using QRCoder;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>An address as a QR code of filled rectangles: sharp at any size, and no picture library is needed.</summary>
internal static class QrDrawing
{
    /// <summary>The dark modules as one outline inside a square; the quiet zone of four modules lies inside the square too.</summary>
    public static XGraphicsPath Outline(string address, double left, double top, double side)
    {
        using var code = QRCodeGenerator.GenerateQrCode(address, QRCodeGenerator.ECCLevel.M);
        var rows = code.ModuleMatrix;
        var module = side / rows.Count;
        var path = new XGraphicsPath { FillMode = XFillMode.Winding };
        for (var row = 0; row < rows.Count; row++)
        {
            var column = 0;
            while (column < rows.Count)
            {
                var end = column;
                while (end < rows.Count && rows[row][end])
                {
                    end++;
                }

                if (end > column)
                {
                    // A hair of overlap, so that no viewer shows seams between the rows.
                    path.AddRectangle(left + (column * module), top + (row * module), (end - column) * module, module * 1.02);
                }

                column = end + 1;
            }
        }

        return path;
    }
}

using System.Security.Cryptography;
using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using PdfSharp.Drawing;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>The picture at the right of the masthead.</summary>
internal sealed class Logo : IDisposable
{
    private const double MostWidth = 150;
    private const double MostHeight = 40;

    /// <summary>A picture is never blown up beyond this many points a pixel: 72 dots an inch.</summary>
    private const double MostPointsAPixel = 1;

    private readonly string _alternative;
    private readonly MemoryStream _stream;
    private readonly XImage _picture;

    private Logo(LayoutLogo layout, byte[] bytes)
    {
        var scale = Math.Min(MostPointsAPixel, Math.Min(MostWidth / layout.Width, MostHeight / layout.Height));
        (Width, Height, _alternative) = (layout.Width * scale, layout.Height * scale, Typesetter.Printable(layout.Alternative));
        _stream = new MemoryStream(bytes, writable: false);
        try
        {
            _picture = XImage.FromStream(_stream);
        }
        catch (Exception unreadable) when (unreadable is not OutOfMemoryException)
        {
            throw new CertificateNotPrintableException("The logo cannot be drawn. Save it anew as a plain PNG or JPEG and choose it again.", unreadable);
        }

        // PDF/A (ISO 19005) does not let a viewer smooth pictures.
        _picture.Interpolate = false;
    }

    public double Width { get; }

    public double Height { get; }

    /// <summary>The logo of a content; null where it names none.</summary>
    /// <exception cref="CertificateNotPrintableException">These are not the bytes that the content names.</exception>
    public static Logo? Of(CertificateContent content, byte[]? bytes)
    {
        if (content.Layout?.Logo is not { } layout)
        {
            return null;
        }

        return bytes is not null && Convert.ToHexStringLower(SHA256.HashData(bytes)) == layout.Sha256
            ? new Logo(layout, bytes)
            : throw new CertificateNotPrintableException("The logo of this certificate is missing, or is not the one that its template was approved with. Tell the administrator at once.");
    }

    /// <summary>At the right edge of the sheet.</summary>
    public Piece Piece(Typesetter type) => new(Height, (sheet, y) =>
    {
        var left = type.Paper.Right - Width;
        using var figure = sheet.Figure(_alternative, left, y, Width, Height);
        sheet.Picture(_picture, left, y, Width, Height);
    });

    public void Dispose()
    {
        _picture.Dispose();
        _stream.Dispose();
    }
}

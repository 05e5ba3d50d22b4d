using System.Text;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.TestLaboratory;

/// <summary>Stands in for the PDF: number and lot are enough to tell files apart.</summary>
public sealed class PlainDrawing : ICertificateDrawing
{
    /// <inheritdoc />
    public byte[] Draw(CertificateContent content, string? contentHash = null, byte[]? logo = null)
    {
        ArgumentNullException.ThrowIfNull(content);
        return Encoding.UTF8.GetBytes($"certificate {content.Number} of lot {content.Product.LotNumber}");
    }

    /// <inheritdoc />
    public byte[] DrawSealed(CertificateContent content, string twin, byte[]? logo = null) => Draw(content);
}

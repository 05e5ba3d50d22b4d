namespace ParticleLims.Laboratory.Certificates;

/// <summary>Draws a certificate from its frozen content and nothing else.</summary>
public interface ICertificateDrawing
{
    /// <summary>The bytes of the PDF.</summary>
    byte[] Draw(CertificateContent content);
}

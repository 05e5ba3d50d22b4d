namespace ParticleLims.Laboratory.Certificates;

/// <summary>Draws a certificate on paper, from its frozen content alone.</summary>
public interface ICertificateDrawing
{
    /// <summary>
    /// The certificate as the bytes of a PDF. The bytes differ from one drawing to the next (a PDF carries its own identifier), so
    /// those that were issued are the ones to keep.
    /// </summary>
    /// <param name="content">What the certificate says; without a number it is drawn as a draft.</param>
    /// <param name="contentHash">The hash of the content's canonical form (hexadecimal), printed beside the record's head; null prints none.</param>
    /// <param name="logo">The bytes of the picture that the content's layout names; null where it names none.</param>
    /// <exception cref="CertificateNotPrintableException">A text has a letter that the paper's font lacks, the time zone is unknown, or the logo is not the one that the layout names.</exception>
    byte[] Draw(CertificateContent content, string? contentHash = null, byte[]? logo = null);

    /// <summary>The certificate as it is issued: drawn, with the machine-readable twin attached, and the whole file sealed by the laboratory's key.</summary>
    /// <param name="content">What the certificate says.</param>
    /// <param name="twin">The canonical form of the content; its hash is printed and its bytes are attached.</param>
    /// <param name="logo">The bytes of the picture that the content's layout names; null where it names none.</param>
    /// <exception cref="CertificateNotPrintableException">A text has a letter that the paper's font lacks, the time zone is unknown, or the logo is not the one that the layout names.</exception>
    byte[] DrawSealed(CertificateContent content, string twin, byte[]? logo = null);
}

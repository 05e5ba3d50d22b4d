namespace ParticleLims.Laboratory.Certificates;

/// <summary>The content cannot be put on paper as it stands; the message says, for people, what to change.</summary>
public sealed class CertificateNotPrintableException : Exception
{
    /// <summary>An exception with a message for people.</summary>
    public CertificateNotPrintableException(string message)
        : base(message)
    {
    }

    /// <summary>An exception with a message for people and its cause.</summary>
    public CertificateNotPrintableException(string message, Exception cause)
        : base(message, cause)
    {
    }
}

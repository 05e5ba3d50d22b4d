using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>The content cannot be put on paper as it stands: refused, and the message says, for people, what to change.</summary>
/// <param name="message">What is wrong and what to do, for people.</param>
/// <param name="cause">What stands behind it; null for nothing else.</param>
public sealed class CertificateNotPrintableException(string message, Exception? cause = null) : RefusedException("certificate-not-printable", message, innerException: cause);

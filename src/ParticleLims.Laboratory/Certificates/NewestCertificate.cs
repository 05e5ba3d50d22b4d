using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>A certificate with its stored file.</summary>
/// <param name="Number">Its number.</param>
/// <param name="Pdf">The bytes as issued.</param>
public sealed record IssuedFile(string Number, byte[] Pdf);

/// <summary>The certificate that was issued last, for the start of the program, when nobody has signed on yet: by which key was it sealed?</summary>
public sealed class NewestCertificate(ReadPath reading)
{
    /// <summary>The one that was issued last; null for none.</summary>
    public Task<IssuedFile?> FindAsync(CancellationToken cancellation) =>
        reading.ReadOpenlyAsync((data, token) => data.Certificates.OrderByDescending(one => one.IssuedAt).ThenByDescending(one => one.Number)
            .Join(data.CertificateFiles, one => one.Id, file => file.CertificateId, (one, file) => new IssuedFile(one.Number, file.Pdf)).FirstOrDefaultAsync(token), cancellation);
}

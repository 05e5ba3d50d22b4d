using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>The PDF of a certificate, byte for byte what was issued; a file that is not that is never sent.</summary>
internal sealed class CertificatePdfs : IAttachmentSource
{
    /// <summary>The kind.</summary>
    public const string Kind = "certificate-pdf";

    /// <inheritdoc />
    string IAttachmentSource.Kind => Kind;

    /// <inheritdoc />
    public async Task<byte[]?> ReadAsync(LaboratoryContext data, Guid id, CancellationToken cancellation)
    {
        var found = await data.Certificates.Where(one => one.Id == id).Join(data.CertificateFiles, one => one.Id, file => file.CertificateId, (one, file) => new { one.FileHash, file.Pdf }).FirstOrDefaultAsync(cancellation);
        return found is not null && Convert.ToHexStringLower(SHA256.HashData(found.Pdf)) == found.FileHash ? found.Pdf : null;
    }
}

/// <summary>The machine-readable twin of a certificate, byte for byte what is attached inside its PDF.</summary>
internal sealed class CertificateTwins : IAttachmentSource
{
    /// <summary>The kind.</summary>
    public const string Kind = "certificate-twin";

    /// <inheritdoc />
    string IAttachmentSource.Kind => Kind;

    /// <inheritdoc />
    public async Task<byte[]?> ReadAsync(LaboratoryContext data, Guid id, CancellationToken cancellation)
    {
        var found = await data.Certificates.Where(one => one.Id == id).Select(one => new { one.Content, one.ContentHash }).FirstOrDefaultAsync(cancellation);
        return found is not null && RecordChain.HashOf(found.Content) == found.ContentHash ? Encoding.UTF8.GetBytes(found.Content) : null;
    }
}

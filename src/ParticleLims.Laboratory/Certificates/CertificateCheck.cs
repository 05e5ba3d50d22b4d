using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>What the public check says, and no more than that.</summary>
/// <param name="Number">The certificate's number.</param>
/// <param name="Revision">Its revision.</param>
/// <param name="ProductCode">The product.</param>
/// <param name="LotNumber">The lot.</param>
/// <param name="IssuedAt">When it was issued.</param>
/// <param name="Issuer">Who issued it.</param>
/// <param name="State">Issued means genuine and current.</param>
/// <param name="FileHash">SHA-256 of the issued file, hexadecimal.</param>
/// <param name="SupersededBy">The number of the certificate that took its place; null for none.</param>
public sealed record CheckedCertificate(string Number, int Revision, string ProductCode, string LotNumber, DateTimeOffset IssuedAt, string Issuer, CertificateState State, string FileHash, string? SupersededBy);

/// <summary>The public check of a certificate: by the secret part of its address, or by the hash of a file.</summary>
public sealed class CertificateCheck(ReadPath reading)
{
    /// <summary>The certificate of an address; null when it is none of ours.</summary>
    public Task<CheckedCertificate?> ByTokenAsync(string token, CancellationToken cancellation) =>
        FindAsync(certificates => certificates.Where(one => one.VerifyToken == token), cancellation);

    /// <summary>The certificate whose issued file has this SHA-256 (hexadecimal); null when it is none of ours, or was changed by as much as a bit.</summary>
    public Task<CheckedCertificate?> ByFileHashAsync(string sha256, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(sha256);
        var hash = sha256.ToLowerInvariant();
        return FindAsync(certificates => certificates.Where(one => one.FileHash == hash), cancellation);
    }

    private Task<CheckedCertificate?> FindAsync(Func<IQueryable<Certificate>, IQueryable<Certificate>> which, CancellationToken cancellation) =>
        reading.ReadOpenlyAsync(async (data, token) =>
        {
            var issuer = await data.Set<LaboratorySettings>().Where(settings => settings.Id == LaboratorySettings.OnlyId).Select(settings => settings.Name).FirstOrDefaultAsync(token) ?? string.Empty;
            return await which(data.Certificates).Select(one => new CheckedCertificate(one.Number, one.Revision, one.ProductCode, one.LotNumber, one.IssuedAt, issuer, one.State, one.FileHash, one.SupersededByNumber)).FirstOrDefaultAsync(token);
        }, cancellation);
}

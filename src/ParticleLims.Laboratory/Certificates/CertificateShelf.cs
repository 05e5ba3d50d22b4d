using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>A certificate as a list shows it.</summary>
public sealed record CertificateRow(
    Guid Id, string Number, int Revision, Guid LotId, string LotNumber, string ProductCode, string CustomerName, DateTimeOffset IssuedAt, string IssuedByName, CertificateState State, string? StateReason, string FileHash, long Version)
{
    /// <summary>The customer; null for stock.</summary>
    public Guid? CustomerId { get; init; }
}

/// <summary>A lot that a certificate speaks of.</summary>
public sealed record CertifiedLot(Guid Id, string Number);

/// <summary>The file of a certificate.</summary>
public sealed record CertificateDownload(string FileName, byte[] Pdf);

/// <summary>The machine-readable twin of a certificate, byte for byte what is attached to its file.</summary>
public sealed record CertificateTwin(string Number, string Json);

/// <summary>Finds and hands out issued certificates. A customer sees only its own.</summary>
public sealed class CertificateShelf(ReadPath reading)
{
    /// <summary>Certificates, newest first; of one lot when asked.</summary>
    public Task<List<CertificateRow>> AllAsync(Actor actor, Guid? lotId, string? numberOrLotPart, int most, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeCertificates, (data, by, token) =>
        {
            var part = numberOrLotPart?.Trim().ToUpperInvariant() ?? string.Empty;
            return Rows(Visible(lotId is { } lot ? data.CertificatesOfLot(lot) : data.Certificates, by)
                .Where(one => part.Length == 0 || one.SearchText.Contains(part))
                .OrderByDescending(one => one.IssuedAt).Take(most))
                .ToListAsync(token);
        }, cancellation);

    /// <summary>One certificate; null when there is none that this actor may see.</summary>
    public Task<CertificateRow?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeCertificates, (data, by, token) => Rows(Visible(data.Certificates, by).Where(one => one.Id == id)).FirstOrDefaultAsync(token), cancellation);

    /// <summary>The lots that a certificate speaks of, in the order in which they are printed; empty when there is none that this actor may see.</summary>
    public Task<List<CertifiedLot>> LotsAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync<List<CertifiedLot>>(actor, Permission.SeeCertificates, async (data, by, token) =>
        {
            if (await Visible(data.Certificates, by).FirstOrDefaultAsync(one => one.Id == id, token) is not { } certificate)
            {
                return [];
            }

            var ids = await data.LotIdsOfAsync(certificate, token);
            var lots = await data.Lots.Where(lot => ids.Contains(lot.Id)).Select(lot => new CertifiedLot(lot.Id, lot.Number)).ToListAsync(token);
            return [.. ids.Select(lotId => lots.Single(lot => lot.Id == lotId))];
        }, cancellation);

    /// <summary>The stored bytes; null when there is none that this actor may see.</summary>
    /// <exception cref="RefusedException">The stored bytes are not those that were issued.</exception>
    public Task<CertificateDownload?> DownloadAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeCertificates, async (data, by, token) =>
        {
            var found = await Visible(data.Certificates, by).Where(one => one.Id == id).Join(data.CertificateFiles, one => one.Id, file => file.CertificateId, (one, file) => new { one.Number, one.Revision, one.FileHash, file.Pdf }).FirstOrDefaultAsync(token);
            if (found is null)
            {
                return null;
            }

            return Convert.ToHexStringLower(SHA256.HashData(found.Pdf)) == found.FileHash
                ? new CertificateDownload($"{found.Number}.pdf", found.Pdf)
                : throw new RefusedException("file-changed", $"The stored file of {found.Number} is not the one that was issued. Tell the administrator at once.");
        }, cancellation);

    /// <summary>The twin alone; null when there is none that this actor may see.</summary>
    /// <exception cref="RefusedException">The stored content is not the one that was issued.</exception>
    public Task<CertificateTwin?> TwinAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeCertificates, async (data, by, token) =>
        {
            var found = await Visible(data.Certificates, by).Where(one => one.Id == id).Select(one => new { one.Number, one.Content, one.ContentHash }).FirstOrDefaultAsync(token);
            return found is null ? null
                : RecordChain.HashOf(found.Content) == found.ContentHash ? new CertificateTwin(found.Number, found.Content)
                : throw new RefusedException("content-changed", $"The stored content of {found.Number} is not the one that was issued. Tell the administrator at once.");
        }, cancellation);

    private static IQueryable<CertificateRow> Rows(IQueryable<Certificate> certificates) => certificates.Select(one => new CertificateRow(
        one.Id, one.Number, one.Revision, one.LotId, one.LotNumber, one.ProductCode, one.CustomerName, one.IssuedAt, one.IssuedByName, one.State, one.StateReason, one.FileHash, one.Version) { CustomerId = one.CustomerId });

    private static IQueryable<Certificate> Visible(IQueryable<Certificate> certificates, Standing by) =>
        by.May(Permission.SeeLaboratory) ? certificates : certificates.Where(one => one.CustomerId != null && one.CustomerId == by.CustomerId);
}

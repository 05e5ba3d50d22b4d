using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Issues certificates from signed releases, and takes them back.</summary>
public sealed class CertificateIssue(WritePath writing, ReadPath reading, ICertificateDrawing drawing, TimeProvider clock)
{
    private static readonly JsonSerializerOptions Canonical = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly DeedKind IssueDeed = new("certificates.issue", "Certificate issued", Permission.IssueCertificates);
    private static readonly DeedKind WithdrawDeed = new("certificates.withdraw", "Certificate withdrawn", Permission.IssueCertificates, ReasonRequired: true);

    /// <summary>Issues the certificate of a sample of a released lot: content frozen, number given, PDF drawn and stored with its hash, all in one transaction.</summary>
    public Task<Guid> IssueAsync(Actor actor, Guid lotId, Guid sampleId, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IssueDeed, actor, key) { Asked = new { lotId, sampleId } }, async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            if (lot.State is not (LotState.Released or LotState.ReleasedByConcession))
            {
                throw new RefusedException("lot-not-released", $"Lot {lot.Number} is {lot.State.Words()}. A certificate is issued only of a released lot.");
            }

            await RequireFirstAsync(scope, sampleId, token);
            var evidence = await LotEvidence.OfAsync(scope.Data, lot, token);
            var result = Find(evidence, sampleId);
            var secret = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(20));
            var settings = await SettingsKeeping.OfAsync(scope.Data, token);
            var number = await scope.NextNumberAsync("C", token);
            var content = await CertificateFreezing.FreezeAsync(scope.Data, lot, result, evidence, number, $"{settings.PublicAddress}/verify/{secret}", scope.Now, token);
            var json = WriteContent(content);
            var certificate = Add(scope, lot, sampleId, content, json, secret, drawing.DrawSealed(content, json));
            scope.About("Certificate", certificate.Id, certificate.Number);
            return certificate.Id;
        }, cancellation);

    /// <summary>Takes a certificate back; its public check says "withdrawn" from now on.</summary>
    public Task<bool> WithdrawAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WithdrawDeed, actor, Reason: reason), async (scope, token) =>
        {
            var certificate = await scope.FindAsync<Certificate>(id, "certificate", token);
            DeedScope.RequireVersion(certificate, version, certificate.Number);
            certificate.Withdraw(reason);
            scope.About("Certificate", certificate.Id, certificate.Number);
            return true;
        }, cancellation);

    /// <summary>A draft as it would look now: marked, without number and without check address. Stores nothing.</summary>
    public Task<byte[]> PreviewAsync(Actor actor, Guid lotId, Guid sampleId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var lot = await data.Lots.FirstOrDefaultAsync(lot => lot.Id == lotId, token) ?? throw new RefusedException("not-found", "There is no such lot.");
            var evidence = await LotEvidence.OfAsync(data, lot, token);
            var result = Find(evidence, sampleId);
            return result.Complete
                ? drawing.Draw(await CertificateFreezing.FreezeAsync(data, lot, result, evidence, null, null, clock.GetUtcNow(), token))
                : throw new RefusedException("results-missing", $"Sample {result.SampleCode}: not every replicate is in yet.");
        }, cancellation);

    /// <summary>A stored content read back.</summary>
    public static CertificateContent ReadContent(Certificate certificate)
    {
        ArgumentNullException.ThrowIfNull(certificate);
        return ReadContent(certificate.Content);
    }

    /// <summary>A content read back from its canonical form.</summary>
    public static CertificateContent ReadContent(string json) => JsonSerializer.Deserialize<CertificateContent>(json, Canonical)!;

    /// <summary>The canonical form of a content: what is stored, attached and hashed.</summary>
    public static string WriteContent(CertificateContent content) => JsonSerializer.Serialize(content, Canonical);

    private static SampleResult Find(LotEvidence evidence, Guid sampleId) =>
        evidence.Results.FirstOrDefault(result => result.SampleId == sampleId) ?? throw new RefusedException("not-found", $"Lot {evidence.Lot.Number} has no such sample with a result.");

    private static async Task RequireFirstAsync(DeedScope scope, Guid sampleId, CancellationToken cancellation)
    {
        if (await scope.Data.Certificates.FirstOrDefaultAsync(one => one.SampleId == sampleId && one.State == CertificateState.Issued, cancellation) is { } issued)
        {
            throw new RefusedException("certificate-issued", $"Certificate {issued.Number} of this sample was issued on {issued.IssuedAt:yyyy-MM-dd} already. Download it, or withdraw it first.");
        }
    }

    private static Certificate Add(DeedScope scope, Lot lot, Guid sampleId, CertificateContent content, string json, string secret, byte[] pdf)
    {
        var certificate = new Certificate
        {
            Id = scope.NewId(), Number = content.Number!, LotId = lot.Id, LotNumber = lot.Number, SampleId = sampleId, ProductCode = content.Product.Code, SearchText = $"{content.Number} {lot.SearchNumber}", CustomerId = lot.CustomerId,
            CustomerName = content.Customer.Name, IssuedAt = scope.Now, IssuedByName = scope.By.Name, VerifyToken = secret, Content = json, ContentHash = RecordChain.HashOf(json),
            FileHash = Convert.ToHexStringLower(SHA256.HashData(pdf)),
        };
        scope.Data.Add(certificate);
        scope.Data.Add(new CertificateFile { CertificateId = certificate.Id, Pdf = pdf });
        return certificate;
    }
}

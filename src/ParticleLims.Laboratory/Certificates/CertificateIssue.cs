using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Issues certificates from signed releases, and takes them back.</summary>
public sealed class CertificateIssue(WritePath writing, ReadPath reading, ICertificateDrawing drawing, TimeProvider clock)
{
    /// <summary>The most samples on one certificate.</summary>
    public const int MostSamples = 20;

    private static readonly JsonSerializerOptions Canonical = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly DeedKind IssueDeed = new("certificates.issue", "Certificate issued", Permission.IssueCertificates);
    private static readonly DeedKind ReviseDeed = new("certificates.revise", "Certificate revised", Permission.IssueCertificates, ReasonRequired: true);
    private static readonly DeedKind WithdrawDeed = new("certificates.withdraw", "Certificate withdrawn", Permission.IssueCertificates, ReasonRequired: true);

    /// <summary>Issues the certificate of a sample of a released lot: content frozen, number given, PDF drawn and stored with its hash, all in one transaction.</summary>
    public Task<Guid> IssueAsync(Actor actor, Guid lotId, Guid sampleId, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IssueDeed, actor, key) { Asked = new { lotId, sampleId } }, async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            return await IssueAsync(scope, [(lot.Id, sampleId)], null, null, token);
        }, cancellation);

    /// <summary>Issues one certificate of several samples, of one lot or of several lots of the same customer; each lot is released, and each sample has no certificate yet.</summary>
    /// <param name="actor">Who issues it.</param>
    /// <param name="sampleIds">The samples in the order in which they are printed: 1 to <see cref="MostSamples"/>.</param>
    /// <param name="key">An idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">One of the rules above is not kept; it says by which lot or sample.</exception>
    public Task<Guid> IssueSeveralAsync(Actor actor, IReadOnlyList<Guid> sampleIds, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IssueDeed, actor, key) { Asked = new { sampleIds } }, async (scope, token) =>
            await IssueAsync(scope, await LotsOfAsync(scope.Data, sampleIds, token), null, null, token), cancellation);

    /// <summary>Issues a certificate in the place of another one, from the records as they are now; the other is superseded by it in the same transaction (ISO/IEC 17025:2017, 7.8.8).</summary>
    /// <param name="actor">Who issues it.</param>
    /// <param name="id">The certificate that it replaces.</param>
    /// <param name="whatChanged">What is different, as printed.</param>
    /// <param name="reason">Why, as printed.</param>
    /// <param name="version">The version of the replaced certificate that was looked at.</param>
    /// <param name="key">An idempotency key.</param>
    /// <param name="cancellation">Ends the waiting.</param>
    public Task<Guid> ReviseAsync(Actor actor, Guid id, string whatChanged, string reason, long version, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReviseDeed, actor, key, reason) { Asked = new { id, whatChanged, reason } }, async (scope, token) =>
        {
            var earlier = await scope.FindAsync<Certificate>(id, "certificate", token);
            DeedScope.RequireVersion(earlier, version, earlier.Number);
            if ((whatChanged?.Trim().Length ?? 0) < 5)
            {
                throw new RefusedException("what-changed-missing", "Say what changed in a few words (at least five letters): it is printed on the new certificate.", "whatChanged");
            }

            await RequireNotInvestigatedAsync(scope, earlier, token);
            return await IssueAsync(scope, await scope.Data.SamplesOfAsync(earlier, token), earlier, new Change(whatChanged!.Trim().TrimEnd('.'), reason.Trim()), token);
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
    public Task<byte[]> PreviewAsync(Actor actor, IReadOnlyList<Guid> sampleIds, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var subjects = await SubjectsAsync(data, await LotsOfAsync(data, sampleIds, token), token);
            if (subjects.FirstOrDefault(subject => !subject.Result.Complete) is { } open)
            {
                throw new RefusedException("results-missing", $"Sample {open.Result.SampleCode}: not every replicate is in yet.");
            }

            var wishes = await WishesAsync(data, subjects[0].Lot, token);
            var now = clock.GetUtcNow();
            var frame = new CertificateFrame(null, null, now) { Wishes = wishes, Template = await ChosenTemplate.OfAsync(data, wishes.Template, now, token) };
            var content = await CertificateFreezing.FreezeAsync(data, subjects, frame, token);
            return drawing.Draw(content, logo: await ChosenTemplate.PictureAsync(data, content.Layout?.Logo?.Sha256, token));
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

    // A lot that failed equipment touched gets no certificate before somebody has decided about it.
    private static async Task RequireNoDoubtAsync(DeedScope scope, Lot lot, CancellationToken cancellation)
    {
        if ((await TouchingCase.OfLotAsync(scope.Data, lot.Id, cancellation)).Select(one => one.Blocker).OfType<string>().ToList() is { Count: > 0 } blockers)
        {
            throw new RefusedException("lot-in-doubt", $"No certificate is issued for lot {lot.Number} now. {string.Join(' ', blockers)}");
        }
    }

    // A revision would be in force at once, past the investigation that suspends the certificate it replaces.
    private static async Task RequireNotInvestigatedAsync(DeedScope scope, Certificate earlier, CancellationToken cancellation)
    {
        if (await scope.Data.CertificateHolds.FirstOrDefaultAsync(hold => hold.CertificateId == earlier.Id && hold.CaseKind == HoldingCaseKind.Investigation && hold.EndedAt == null, cancellation) is { } hold)
        {
            throw new RefusedException("certificate-held", $"Certificate {earlier.Number} is suspended while investigation {hold.CaseNumber} is open. Conclude it first.");
        }
    }

    /// <summary>Refuses of a lot that is not released.</summary>
    internal static void RequireReleased(Lot lot)
    {
        if (lot.State is not (LotState.Released or LotState.ReleasedByConcession))
        {
            throw new RefusedException("lot-not-released", $"Lot {lot.Number} is {lot.State.Words()}. A certificate is issued, and reinstated, only of a released lot.");
        }
    }

    private async Task<Guid> IssueAsync(DeedScope scope, IReadOnlyList<(Guid LotId, Guid SampleId)> samples, Certificate? earlier, Change? changed, CancellationToken cancellation)
    {
        var subjects = await SubjectsAsync(scope.Data, samples, cancellation);
        foreach (var lot in subjects.Select(subject => subject.Lot).DistinctBy(lot => lot.Id))
        {
            RequireReleased(lot);
            await RequireNoDoubtAsync(scope, lot, cancellation);
        }

        foreach (var sampleId in earlier is null ? samples.Select(sample => sample.SampleId) : [])
        {
            await RequireFirstAsync(scope, sampleId, cancellation);
        }

        var secret = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(20));
        var settings = await SettingsKeeping.OfAsync(scope.Data, cancellation);
        var number = await scope.NextNumberAsync("C", cancellation);
        var wishes = await WishesAsync(scope.Data, subjects[0].Lot, cancellation);
        var frame = new CertificateFrame(number, $"{settings.PublicAddress}/verify/{secret}", scope.Now)
        {
            Revision = (earlier?.Revision ?? 0) + 1,
            Replaces = earlier is null ? null : CertificateTexts.In(wishes.Language).With("replaced.words", earlier.Number, earlier.Revision, changed!.What, changed.Why),
            Wishes = wishes, Template = await ChosenTemplate.OfAsync(scope.Data, wishes.Template, scope.Now, cancellation),
        };
        foreach (var subject in subjects)
        {
            await IndependentRelease.RequireAsync(scope.Data, frame.Template.Plan.Kind, subject.Lot, subject.Evidence, subject.Result, cancellation);
        }

        var content = await CertificateFreezing.FreezeAsync(scope.Data, subjects, frame, cancellation);
        var json = WriteContent(content);
        var logo = await ChosenTemplate.PictureAsync(scope.Data, content.Layout?.Logo?.Sha256, cancellation);
        var certificate = Add(scope, subjects, content, json, secret, drawing.DrawSealed(content, json, logo), earlier?.Id);
        earlier?.Supersede(number, changed!.Why);
        scope.About("Certificate", certificate.Id, certificate.Number);
        return certificate.Id;
    }

    /// <summary>The samples with their lots, in the order in which they were named.</summary>
    private static async Task<IReadOnlyList<(Guid LotId, Guid SampleId)>> LotsOfAsync(LaboratoryContext data, IReadOnlyList<Guid> sampleIds, CancellationToken cancellation)
    {
        if (sampleIds.Count is 0 or > MostSamples || sampleIds.Distinct().Count() < sampleIds.Count)
        {
            throw new RefusedException("certificate-samples", $"Choose 1 to {MostSamples} samples for one certificate, each once.", "samples");
        }

        var lots = await data.Samples.Where(sample => sampleIds.Contains(sample.Id)).Select(sample => new { sample.Id, sample.LotId }).ToDictionaryAsync(sample => sample.Id, sample => sample.LotId, cancellation);
        return [.. sampleIds.Select(id => lots.TryGetValue(id, out var lotId) ? (lotId, id) : throw new RefusedException("not-found", "There is no such sample. It may have been opened from an old link."))];
    }

    private static async Task<IReadOnlyList<CertificateSubject>> SubjectsAsync(LaboratoryContext data, IReadOnlyList<(Guid LotId, Guid SampleId)> samples, CancellationToken cancellation)
    {
        var evidences = new Dictionary<Guid, LotEvidence>();
        foreach (var lotId in samples.Select(sample => sample.LotId).Distinct())
        {
            var lot = await data.Lots.AsNoTracking().SingleAsync(lot => lot.Id == lotId, cancellation);
            evidences.Add(lotId, await LotEvidence.OfAsync(data, lot, cancellation));
        }

        if (evidences.Values.Select(evidence => evidence.Lot.CustomerId).Distinct().Count() > 1)
        {
            throw new RefusedException("certificate-customers", $"Lots {string.Join(" and ", evidences.Values.Select(evidence => evidence.Lot.Number))} do not belong to one customer. A certificate goes to one customer.", "samples");
        }

        return [.. samples.Select(sample => new CertificateSubject(evidences[sample.LotId].Lot, evidences[sample.LotId], Find(evidences[sample.LotId], sample.SampleId)))];
    }

    private static async Task<CertificateWishes> WishesAsync(LaboratoryContext data, Lot lot, CancellationToken cancellation) =>
        await data.Customers.AsNoTracking().Where(customer => customer.Id == lot.CustomerId).FirstOrDefaultAsync(cancellation) is { } customer ? customer.Certificates : CertificateWishes.Usual;

    private static SampleResult Find(LotEvidence evidence, Guid sampleId) =>
        evidence.Results.FirstOrDefault(result => result.SampleId == sampleId) ?? throw new RefusedException("not-found", $"Lot {evidence.Lot.Number} has no such sample with a result.");

    private static async Task RequireFirstAsync(DeedScope scope, Guid sampleId, CancellationToken cancellation)
    {
        if (await scope.Data.CertificatesOfSample(sampleId).FirstOrDefaultAsync(one => one.State == CertificateState.Issued || one.State == CertificateState.Suspended, cancellation) is { } issued)
        {
            throw new RefusedException("certificate-issued", $"Certificate {issued.Number} of this sample was issued on {issued.IssuedAt:yyyy-MM-dd} already. Download it, revise it, or withdraw it first.");
        }
    }

    private static Certificate Add(DeedScope scope, IReadOnlyList<CertificateSubject> subjects, CertificateContent content, string json, string secret, byte[] pdf, Guid? replaces)
    {
        var (first, lots) = (subjects[0], subjects.Select(subject => subject.Lot).DistinctBy(lot => lot.Id).ToList());
        var certificate = new Certificate
        {
            Id = scope.NewId(), Number = content.Number!, Revision = content.Revision, ReplacesId = replaces, LotId = first.Lot.Id, LotNumber = string.Join(", ", lots.Select(lot => lot.Number)), SampleId = first.Result.SampleId,
            ProductCode = string.Join(", ", content.Items.Select(item => item.Product.Code).Distinct()), SearchText = $"{content.Number} {string.Join(' ', lots.Select(lot => lot.SearchNumber))}", CustomerId = first.Lot.CustomerId,
            CustomerName = content.Customer.Name, IssuedAt = scope.Now, IssuedByName = scope.By.Name, VerifyToken = secret, Content = json, ContentHash = RecordChain.HashOf(json),
            FileHash = Convert.ToHexStringLower(SHA256.HashData(pdf)),
        };
        scope.Data.Add(certificate);
        scope.Data.Add(new CertificateFile { CertificateId = certificate.Id, Pdf = pdf });
        scope.Data.AddRange(subjects.Skip(1).Select((subject, i) => new FurtherSample { Id = scope.NewId(), CertificateId = certificate.Id, Position = i + 2, LotId = subject.Lot.Id, LotNumber = subject.Lot.Number, SampleId = subject.Result.SampleId }));
        return certificate;
    }

    private sealed record Change(string What, string Why);
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Shows how a certificate would look by a template: the newest one issued here, frozen anew as a draft, or an invented example where there is none. Stores nothing.</summary>
public sealed class TemplatePreview(ReadPath reading, ICertificateDrawing drawing, TimeProvider clock)
{
    /// <summary>A draft's look, as a PDF.</summary>
    /// <exception cref="RefusedException">The draft is refused, or cannot be drawn.</exception>
    public Task<byte[]> OfDraftAsync(Actor actor, TemplateDraft draft, string language, string paper, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.WriteDocuments, (data, _, token) =>
        {
            var (plan, picture) = draft.Checked();
            return DrawAsync(data, new ChosenTemplate("DRAFT", 1, plan), picture?.Bytes, language, paper, token);
        }, cancellation);

    /// <summary>A written version's look, as a PDF; null when there is no such version.</summary>
    /// <exception cref="RefusedException">The language or the sheet is unknown.</exception>
    public Task<byte[]?> OfVersionAsync(Actor actor, Guid versionId, string language, string paper, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var version = await data.CertificateTemplateVersions.FirstOrDefaultAsync(one => one.Id == versionId, token) ?? StandardTemplate.VersionOfTheProgram(versionId);
            if (version is null)
            {
                return null;
            }

            var code = await data.CertificateTemplates.Where(one => one.Id == version.DocumentId).Select(one => one.Code).FirstOrDefaultAsync(token) ?? StandardTemplate.Code;
            return (byte[]?)await DrawAsync(data, new ChosenTemplate(code, version.Number, version.Plan), null, language, paper, token);
        }, cancellation);

    private async Task<byte[]> DrawAsync(LaboratoryContext data, ChosenTemplate template, byte[]? picture, string language, string paper, CancellationToken cancellation)
    {
        var wishes = new CertificateWishes { Language = language, Paper = paper };
        wishes.Check();
        var content = await NewestAsync(data, template, wishes, cancellation) ?? ExampleContent.By(template, language, paper);
        try
        {
            return drawing.Draw(content, logo: picture ?? await ChosenTemplate.PictureAsync(data, content.Layout?.Logo?.Sha256, cancellation));
        }
        catch (CertificateNotPrintableException unprintable)
        {
            throw new RefusedException("certificate-template", unprintable.Message, "texts", unprintable);
        }
    }

    private async Task<CertificateContent?> NewestAsync(LaboratoryContext data, ChosenTemplate template, CertificateWishes wishes, CancellationToken cancellation)
    {
        if (await data.Certificates.OrderByDescending(one => one.IssuedAt).ThenByDescending(one => one.Number).Select(one => new { one.LotId, one.SampleId }).FirstOrDefaultAsync(cancellation) is not { } newest)
        {
            return null;
        }

        var lot = await data.Lots.SingleAsync(lot => lot.Id == newest.LotId, cancellation);
        var evidence = await LotEvidence.OfAsync(data, lot, cancellation);
        return evidence.Results.FirstOrDefault(result => result.SampleId == newest.SampleId) is { Complete: true } result
            ? await CertificateFreezing.FreezeAsync(data, [new CertificateSubject(lot, evidence, result)], new CertificateFrame(null, null, clock.GetUtcNow()) { Wishes = wishes, Template = template }, cancellation)
            : null;
    }
}

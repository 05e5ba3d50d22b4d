using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Templates;

/// <summary>A template with all its versions at an instant, newest first.</summary>
public sealed record TemplatePage(CertificateTemplate Template, IReadOnlyList<CertificateTemplateVersion> Versions, DateTimeOffset At)
{
    /// <summary>The version in force; null before one was approved.</summary>
    public CertificateTemplateVersion? InForce => Versions.InForceAt(At);
}

/// <summary>Writes templates of certificates as drafts; their approval is DocumentApproval's.</summary>
public sealed class TemplateKeeping(WritePath writing, ReadPath reading, ITemplateTrial trial, TimeProvider clock)
{
    private static readonly DeedKind WriteDeed = new("certificate-templates.write", "Template of certificates written", Permission.WriteDocuments);
    private static readonly DeedKind ReviseDeed = new("certificate-templates.revise", "New version of a template of certificates written", Permission.WriteDocuments);

    /// <summary>Writes a new template with its first draft; answers the version's key.</summary>
    public Task<Guid> WriteAsync(Actor actor, string code, string title, TemplateDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WriteDeed, actor, key) { Asked = new { code, title, Plan = draft.Plan.Write(), draft.WhatChanged, Picture = draft.PictureHash } }, async (scope, token) =>
        {
            var name = code.Trim();
            if (name.Length is 0 or > 40 || title.Trim().Length is 0 or > 200)
            {
                throw new RefusedException("certificate-template", "A template has a code of at most 40 characters and a title of at most 200.", "code");
            }

            if (name == StandardTemplate.Code || await scope.Data.CertificateTemplates.AnyAsync(template => template.Code == name, token))
            {
                throw new RefusedException("template-code-used", $"There is a template {name} already. Write a new version of it instead.", "code");
            }

            var template = new CertificateTemplate { Id = scope.NewId(), Code = name, Title = title.Trim() };
            return await AddAsync(scope, template, 1, draft, token);
        }, cancellation);

    /// <summary>Writes the next version as a draft; a draft that was never in force gives way to it.</summary>
    public Task<Guid> ReviseAsync(Actor actor, Guid templateId, TemplateDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReviseDeed, actor, key) { Asked = new { templateId, Plan = draft.Plan.Write(), draft.WhatChanged, Picture = draft.PictureHash } }, async (scope, token) =>
        {
            var template = await scope.Data.CertificateTemplates.Include(template => template.Versions).FirstOrDefaultAsync(template => template.Id == templateId, token)
                ?? (templateId == CertificateTemplate.StandardId ? StandardTemplate.Document() : throw new RefusedException("not-found", "There is no such template."));
            if (template.Versions.Any(one => one.State == DocumentState.InApproval))
            {
                throw new RefusedException("template-in-approval", $"{template.Code} has a version in approval. Have it approved or handed back first.");
            }

            template.Versions.Find(one => one.State == DocumentState.Draft)?.GiveWay(template.Code);
            return await AddAsync(scope, template, StandardTemplate.PageOf(template, scope.Now).Versions.Max(one => one.Number) + 1, draft, token);
        }, cancellation);

    /// <summary>All templates with their versions, the standard one first.</summary>
    public Task<List<TemplatePage>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var templates = await data.CertificateTemplates.Include(template => template.Versions).OrderBy(template => template.Code).ToListAsync(token);
            var standard = templates.Find(template => template.IsStandard) ?? StandardTemplate.Document();
            return templates.Where(template => !template.IsStandard).Prepend(standard).Select(template => StandardTemplate.PageOf(template, clock.GetUtcNow())).ToList();
        }, cancellation);

    /// <summary>One template with its versions; null when there is none.</summary>
    public Task<TemplatePage?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            (await data.CertificateTemplates.Include(template => template.Versions).FirstOrDefaultAsync(template => template.Id == id, token) ?? (id == CertificateTemplate.StandardId ? StandardTemplate.Document() : null)) is { } template
                ? StandardTemplate.PageOf(template, clock.GetUtcNow())
                : null, cancellation);

    /// <summary>A logo by its hash; null when there is none.</summary>
    public Task<CertificateLogo?> LogoAsync(Actor actor, string sha256, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.CertificateLogos.FirstOrDefaultAsync(logo => logo.Sha256 == sha256, token), cancellation);

    private async Task<Guid> AddAsync(DeedScope scope, CertificateTemplate template, int number, TemplateDraft draft, CancellationToken cancellation)
    {
        var version = await draft.ToVersionAsync(scope, template.Id, number, trial, cancellation);
        if (scope.Data.Entry(template).State == EntityState.Detached)
        {
            scope.Data.Add(template);
        }

        scope.Data.Add(version);
        scope.About(nameof(CertificateTemplate), template.Id, version.LabelIn(template));
        return version.Id;
    }
}

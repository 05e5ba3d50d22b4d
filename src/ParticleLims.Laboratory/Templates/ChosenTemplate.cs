using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Templates;

/// <summary>The template by which a certificate is drawn: its code, its version, and what that says.</summary>
internal sealed record ChosenTemplate(string Code, int Version, PaperPlan Plan)
{
    /// <summary>The version in force of the template that a customer chose; of the standard one where it chose none.</summary>
    /// <exception cref="RefusedException">The chosen one has no version in force.</exception>
    public static async Task<ChosenTemplate> OfAsync(LaboratoryContext data, Guid? chosen, DateTimeOffset instant, CancellationToken cancellation)
    {
        var id = chosen ?? CertificateTemplate.StandardId;
        var found = await data.CertificateTemplateVersions.ThoseInForceAt(instant).AsNoTracking().Where(version => version.DocumentId == id)
            .Join(data.CertificateTemplates, version => version.DocumentId, template => template.Id, (version, template) => new { template.Code, version }).FirstOrDefaultAsync(cancellation);
        return found is not null ? new ChosenTemplate(found.Code, found.version.Number, found.version.Plan)
            : id == CertificateTemplate.StandardId ? new ChosenTemplate(StandardTemplate.Code, 1, PaperPlan.Usual)
            : throw new RefusedException("template-not-in-force", "The template of certificates that this customer chose has no version in force. Have one approved, or choose another one for the customer.", "template");
    }

    /// <summary>The bytes of its logo, which are those that its version was approved with; null where it has none.</summary>
    public static async Task<byte[]?> PictureAsync(LaboratoryContext data, string? sha256, CancellationToken cancellation) =>
        sha256 is null ? null : await data.CertificateLogos.Where(logo => logo.Sha256 == sha256).Select(logo => logo.Bytes).SingleAsync(cancellation);
}

/// <summary>Looks at what a customer chooses.</summary>
internal sealed class TemplateChoice : ITemplateChoice
{
    /// <inheritdoc />
    public async Task RequireAsync(LaboratoryContext data, Guid template, DateTimeOffset instant, CancellationToken cancellation)
    {
        if (template != CertificateTemplate.StandardId && !await data.CertificateTemplateVersions.ThoseInForceAt(instant).AnyAsync(version => version.DocumentId == template, cancellation))
        {
            throw new RefusedException("template-not-in-force", "Choose a template of certificates that has a version in force, or the laboratory's standard.", "template");
        }
    }
}

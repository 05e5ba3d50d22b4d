using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Today;

/// <summary>What a waiting version is a version of.</summary>
public enum WaitingDocument
{
    Method,
    Specification,
    CertificateTemplate,
}

/// <summary>A version of a method, a specification or a template of certificates that waits for approval.</summary>
/// <param name="DocumentId">The document.</param>
/// <param name="Kind">Which of them it is.</param>
/// <param name="Code">Its code.</param>
/// <param name="Number">The version's number.</param>
/// <param name="AuthorName">Who wrote it.</param>
/// <param name="AuthorId">Who wrote it: somebody else approves.</param>
/// <param name="WhatChanged">In the author's words.</param>
public sealed record DocumentWaiting(Guid DocumentId, WaitingDocument Kind, string Code, int Number, string AuthorName, Guid AuthorId, string WhatChanged)
{
    internal static async Task<List<DocumentWaiting>> OfAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var methods = await data.MethodVersions.Where(one => one.State == DocumentState.InApproval)
            .Join(data.Methods, version => version.DocumentId, document => document.Id, (version, document) => new DocumentWaiting(document.Id, WaitingDocument.Method, document.Code, version.Number, version.AuthorName, version.AuthorId, version.WhatChanged))
            .ToListAsync(cancellation);
        var specifications = await data.SpecificationVersions.Where(one => one.State == DocumentState.InApproval)
            .Join(data.Specifications, version => version.DocumentId, document => document.Id, (version, document) => new DocumentWaiting(document.Id, WaitingDocument.Specification, document.Code, version.Number, version.AuthorName, version.AuthorId, version.WhatChanged))
            .ToListAsync(cancellation);
        var templates = await data.CertificateTemplateVersions.Where(one => one.State == DocumentState.InApproval)
            .Join(data.CertificateTemplates, version => version.DocumentId, document => document.Id, (version, document) => new DocumentWaiting(document.Id, WaitingDocument.CertificateTemplate, document.Code, version.Number, version.AuthorName, version.AuthorId, version.WhatChanged))
            .ToListAsync(cancellation);
        return [.. methods.Concat(specifications).Concat(templates).OrderBy(one => one.Code, StringComparer.Ordinal)];
    }
}

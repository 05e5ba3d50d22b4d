using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Today;

/// <summary>A version of a method or a specification that waits for approval.</summary>
/// <param name="DocumentId">The method or the specification.</param>
/// <param name="IsMethod">False for a specification.</param>
/// <param name="Code">Its code.</param>
/// <param name="Number">The version's number.</param>
/// <param name="AuthorName">Who wrote it.</param>
/// <param name="AuthorId">Who wrote it: somebody else approves.</param>
/// <param name="WhatChanged">In the author's words.</param>
public sealed record DocumentWaiting(Guid DocumentId, bool IsMethod, string Code, int Number, string AuthorName, Guid AuthorId, string WhatChanged)
{
    internal static async Task<List<DocumentWaiting>> OfAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var methods = await data.MethodVersions.Where(one => one.State == DocumentState.InApproval)
            .Join(data.Methods, version => version.DocumentId, document => document.Id, (version, document) => new DocumentWaiting(document.Id, true, document.Code, version.Number, version.AuthorName, version.AuthorId, version.WhatChanged))
            .ToListAsync(cancellation);
        var specifications = await data.SpecificationVersions.Where(one => one.State == DocumentState.InApproval)
            .Join(data.Specifications, version => version.DocumentId, document => document.Id, (version, document) => new DocumentWaiting(document.Id, false, document.Code, version.Number, version.AuthorName, version.AuthorId, version.WhatChanged))
            .ToListAsync(cancellation);
        return [.. methods.Concat(specifications).OrderBy(one => one.Code, StringComparer.Ordinal)];
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Certificates belong to their lot.</summary>
internal sealed class CertificateBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation) =>
        data.Certificates.Where(one => things.Contains(one.LotId)).Select(one => one.Id).ToListAsync(cancellation);
}

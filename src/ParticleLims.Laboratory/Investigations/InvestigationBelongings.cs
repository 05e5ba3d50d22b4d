using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Investigations belong to their lot.</summary>
internal sealed class InvestigationBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation) =>
        data.Investigations.Where(one => things.Contains(one.LotId)).Select(one => one.Id).ToListAsync(cancellation);
}

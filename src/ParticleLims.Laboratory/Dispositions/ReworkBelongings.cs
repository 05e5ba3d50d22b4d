using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>Lots that a rejected lot was reworked into belong to it: what became of the powder is a part of its history.</summary>
internal sealed class ReworkBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation) =>
        data.Lots.Where(one => one.ReworkedFromId != null && things.Contains(one.ReworkedFromId.Value)).Select(one => one.Id).ToListAsync(cancellation);
}

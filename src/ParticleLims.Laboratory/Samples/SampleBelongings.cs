using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Samples;

/// <summary>Samples belong to their lot.</summary>
internal sealed class SampleBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation) =>
        data.Samples.Where(one => things.Contains(one.LotId)).Select(one => one.Id).ToListAsync(cancellation);
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>A case of failed equipment belongs to each lot that it touched.</summary>
internal sealed class FailureBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation) =>
        data.Set<TouchedLot>().Where(one => things.Contains(one.LotId)).Select(one => one.FailureId).Distinct().ToListAsync(cancellation);
}

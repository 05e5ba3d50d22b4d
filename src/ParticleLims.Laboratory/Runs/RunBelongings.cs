using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Runs, with their weighings and evaluations, belong to their sample.</summary>
internal sealed class RunBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation) =>
        data.Runs.Where(one => things.Contains(one.SampleId)).Select(one => one.Id).ToListAsync(cancellation);
}

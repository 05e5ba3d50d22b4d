using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Certificates belong to the lots that they speak of.</summary>
internal sealed class CertificateBelongings : IBelongings
{
    /// <inheritdoc />
    public Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation)
    {
        var others = data.FurtherSamples;
        return data.Certificates.Where(one => things.Contains(one.LotId) || others.Any(further => further.CertificateId == one.Id && things.Contains(further.LotId))).Select(one => one.Id).ToListAsync(cancellation);
    }
}

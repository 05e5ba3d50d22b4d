using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>The certificates of a lot, for deeds on the lot.</summary>
internal sealed class LotCertificateLife : ILotCertificates
{
    /// <inheritdoc />
    public async Task<IReadOnlyList<string>> NumbersAsync(LaboratoryContext data, Guid lotId, CancellationToken cancellation) =>
        await data.Certificates.Where(one => one.LotId == lotId).OrderBy(one => one.Number).Select(one => one.Number).ToListAsync(cancellation);

    /// <inheritdoc />
    public async Task SuspendAsync(DeedScope scope, Guid lotId, string reason, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        foreach (var certificate in await scope.Data.Certificates.Where(one => one.LotId == lotId && one.State == CertificateState.Issued).ToListAsync(cancellation))
        {
            certificate.Suspend(reason);
        }
    }
}

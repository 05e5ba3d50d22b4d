using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Lots;

/// <summary>What became known of a lot outside the house. Implemented by Certificates, which lean on lots and not the other way round.</summary>
public interface ILotCertificates
{
    /// <summary>The numbers of all certificates of a lot, whatever became of them, in their order.</summary>
    Task<IReadOnlyList<string>> NumbersAsync(LaboratoryContext data, Guid lotId, CancellationToken cancellation);

    /// <summary>Suspends those in force within the running deed: their public check says so from now on.</summary>
    Task SuspendAsync(DeedScope scope, Guid lotId, string reason, CancellationToken cancellation);
}

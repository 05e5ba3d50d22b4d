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
        await data.CertificatesOfLot(lotId).OrderBy(one => one.Number).Select(one => one.Number).ToListAsync(cancellation);

    /// <inheritdoc />
    public async Task SuspendAsync(DeedScope scope, Guid lotId, string reason, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        foreach (var certificate in await scope.Data.CertificatesOfLot(lotId).Where(one => one.State == CertificateState.Issued).ToListAsync(cancellation))
        {
            certificate.Suspend(reason);
        }
    }

    /// <inheritdoc />
    public async Task HoldAsync(DeedScope scope, HoldingCase held, Guid lotId, IReadOnlyCollection<Guid>? samples, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        ArgumentNullException.ThrowIfNull(held);
        var standing = await scope.Data.CertificatesOfLot(lotId).Where(one => (one.State == CertificateState.Issued || one.State == CertificateState.Suspended)).OrderBy(one => one.Number).ToListAsync(cancellation);
        var ids = standing.ConvertAll(one => one.Id);
        var further = samples is null ? [] : await scope.Data.FurtherSamples.Where(one => ids.Contains(one.CertificateId) && samples.Contains(one.SampleId)).Select(one => one.CertificateId).ToListAsync(cancellation);
        foreach (var certificate in standing.Where(one => samples is null || samples.Contains(one.SampleId) || further.Contains(one.Id)))
        {
            var holds = await scope.Data.CertificateHolds.Where(hold => hold.CertificateId == certificate.Id && hold.EndedAt == null).ToListAsync(cancellation);
            // A certificate of two touched lots is held once: the second time its hold is not in the database yet.
            if (holds.Exists(hold => hold.CaseId == held.Id) || scope.Data.CertificateHolds.Local.Any(hold => hold.CertificateId == certificate.Id && hold.CaseId == held.Id))
            {
                continue;
            }

            scope.Data.Add(new CertificateHold
            {
                Id = scope.NewId(), CertificateId = certificate.Id, CaseKind = held.Kind, CaseId = held.Id, CaseNumber = held.Number, At = scope.Now,
                SuspendedBefore = certificate.State == CertificateState.Suspended && (holds.Count == 0 || holds.Exists(hold => hold.SuspendedBefore)),
            });
            if (certificate.State == CertificateState.Issued)
            {
                certificate.Suspend($"Case {held.Number} is looked into.");
            }
        }
    }

    /// <inheritdoc />
    public async Task EndHoldAsync(DeedScope scope, Guid caseId, Guid? lotId, bool lifts, string words, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        var held = await scope.Data.CertificateHolds.Where(hold => hold.CaseId == caseId && hold.EndedAt == null)
            .Join(lotId is { } lot ? scope.Data.CertificatesOfLot(lot) : scope.Data.Certificates, hold => hold.CertificateId, one => one.Id, (hold, one) => new { hold, one }).ToListAsync(cancellation);

        // A certificate of two touched lots: what one of them decided in this deed is not in the database yet.
        foreach (var (hold, certificate) in held.Where(pair => pair.hold.EndedAt is null).Select(pair => (pair.hold, pair.one)))
        {
            hold.End(scope.Now, words, !lifts);
            if (lifts && !hold.SuspendedBefore && certificate.State == CertificateState.Suspended && await IsFreeAsync(scope.Data, hold, certificate, cancellation))
            {
                certificate.Reinstate();
            }
        }
    }

    // Another open case, one that was closed meanwhile and kept it suspended, or one of its lots that is not released any more goes on suspending it.
    private static async Task<bool> IsFreeAsync(LaboratoryContext data, CertificateHold ended, Certificate certificate, CancellationToken cancellation)
    {
        var lots = await data.LotIdsOfAsync(certificate, cancellation);
        return !await data.Lots.AnyAsync(lot => lots.Contains(lot.Id) && lot.State != LotState.Released && lot.State != LotState.ReleasedByConcession, cancellation)
            && !await data.CertificateHolds.AnyAsync(other => other.CertificateId == ended.CertificateId && other.Id != ended.Id && (other.EndedAt == null || (other.Kept && other.EndedAt >= ended.At)), cancellation);
    }
}

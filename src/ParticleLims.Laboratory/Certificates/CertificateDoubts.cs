using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>A certificate that rests on a run which failed equipment touched. Written by its members, because the database orders by them.</summary>
public sealed record DoubtedCertificate
{
    public required Guid Id { get; init; }
    public required string Number { get; init; }
    public required Guid LotId { get; init; }
    public required string LotNumber { get; init; }
    public required string CustomerName { get; init; }
    public required CertificateState State { get; init; }
    public required Guid FailureId { get; init; }
    public required string FailureNumber { get; init; }
}

/// <summary>Says which certificates are in doubt because equipment failed.</summary>
public sealed class CertificateDoubts(ReadPath reading)
{
    /// <summary>The certificates that a case touches, whatever became of them since.</summary>
    public Task<List<DoubtedCertificate>> OfFailureAsync(Actor actor, Guid failureId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Of(data, open: false).Where(one => one.FailureId == failureId).OrderBy(one => one.Number).ToListAsync(token), cancellation);

    /// <summary>The certificates that an open case touches and nobody took back or replaced.</summary>
    public Task<List<DoubtedCertificate>> OpenAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Of(data, open: true).Where(one => one.State == CertificateState.Issued || one.State == CertificateState.Suspended).OrderBy(one => one.Number).ToListAsync(token), cancellation);

    private static IQueryable<DoubtedCertificate> Of(LaboratoryContext data, bool open)
    {
        var (failures, runs, further) = (data.EquipmentFailures, data.TouchedRuns, data.FurtherSamples);
        return
            from certificate in data.Certificates
            from failure in failures
            where runs.Any(run => run.FailureId == failure.Id && (run.SampleId == certificate.SampleId || further.Any(one => one.CertificateId == certificate.Id && one.SampleId == run.SampleId))) && (!open || failure.ClosedAt == null)
            select new DoubtedCertificate
            {
                Id = certificate.Id, Number = certificate.Number, LotId = certificate.LotId, LotNumber = certificate.LotNumber, CustomerName = certificate.CustomerName, State = certificate.State,
                FailureId = failure.Id, FailureNumber = failure.Number,
            };
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>A sample of a released lot of which no certificate is in force.</summary>
public sealed record SampleToCertify
{
    public required Guid SampleId { get; init; }
    public required string SampleCode { get; init; }
    public required Guid LotId { get; init; }
    public required string LotNumber { get; init; }
    public required string ProductCode { get; init; }
    public required string ProductName { get; init; }

    /// <summary>The customer; null for stock.</summary>
    public required Guid? CustomerId { get; init; }
    public required string? CustomerReference { get; init; }
    public required DateTimeOffset ReceivedAt { get; init; }
}

/// <summary>Finds what waits for a certificate.</summary>
public sealed class SamplesToCertify(ReadPath reading)
{
    /// <summary>The samples with an accepted run, of released lots, of which no certificate is in force or suspended; those received last come first.</summary>
    /// <param name="actor">Who asks.</param>
    /// <param name="most">The most that are answered.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public Task<List<SampleToCertify>> AllAsync(Actor actor, int most, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.IssueCertificates, (data, _, token) => Waiting(data, data.Lots).Take(most).ToListAsync(token), cancellation);

    /// <summary>Those of one lot; none where it is not released, or where each sample has its certificate.</summary>
    /// <param name="actor">Who asks.</param>
    /// <param name="lotId">The lot.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public Task<List<SampleToCertify>> OfLotAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.IssueCertificates, (data, _, token) => Waiting(data, data.Lots.Where(lot => lot.Id == lotId)).ToListAsync(token), cancellation);

    private static IQueryable<SampleToCertify> Waiting(LaboratoryContext data, IQueryable<Lot> lots)
    {
        var (certificates, further, runs) = (data.Certificates.Where(one => one.State == CertificateState.Issued || one.State == CertificateState.Suspended), data.FurtherSamples, data.Runs);
        return from sample in data.Samples
               join lot in lots on sample.LotId equals lot.Id
               join product in data.Products on lot.ProductId equals product.Id
               where (lot.State == LotState.Released || lot.State == LotState.ReleasedByConcession)
                   && runs.Any(run => run.SampleId == sample.Id && run.State == RunState.Accepted)
                   && !certificates.Any(one => one.SampleId == sample.Id || further.Any(other => other.CertificateId == one.Id && other.SampleId == sample.Id))
               orderby sample.ReceivedAt descending, sample.Code
               select new SampleToCertify
               {
                   SampleId = sample.Id, SampleCode = sample.Code, LotId = lot.Id, LotNumber = lot.Number, ProductCode = product.Code, ProductName = product.Name, CustomerId = lot.CustomerId,
                   CustomerReference = lot.CustomerReference, ReceivedAt = sample.ReceivedAt,
               };
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Another sample of which a certificate speaks, beside the one that the certificate itself names. Written once, when it is issued.</summary>
public sealed class FurtherSample
{
    public Guid Id { get; init; }
    public Guid CertificateId { get; init; }

    /// <summary>2 for the second sample, and so on.</summary>
    public int Position { get; init; }
    public Guid LotId { get; init; }
    public required string LotNumber { get; init; }
    public Guid SampleId { get; init; }
}

internal sealed class FurtherSampleTable : IEntityTypeConfiguration<FurtherSample>
{
    public void Configure(EntityTypeBuilder<FurtherSample> builder)
    {
        builder.ToTable("certificate_further_samples").HasIndex(one => new { one.CertificateId, one.Position }).IsUnique();
        builder.HasIndex(one => one.LotId);
        builder.HasIndex(one => one.SampleId);
        builder.HasOne<Certificate>().WithMany().HasForeignKey(one => one.CertificateId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(one => one.LotId);
        builder.HasOne<Sample>().WithMany().HasForeignKey(one => one.SampleId);
    }
}

/// <summary>Names the table, and asks for certificates by what they speak of.</summary>
public static class FurtherSamplesTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All further samples of all certificates.</summary>
        public DbSet<FurtherSample> FurtherSamples => data.Set<FurtherSample>();

        /// <summary>The certificates that speak of a lot, whatever became of them.</summary>
        public IQueryable<Certificate> CertificatesOfLot(Guid lotId)
        {
            var others = data.FurtherSamples;
            return data.Certificates.Where(one => one.LotId == lotId || others.Any(further => further.CertificateId == one.Id && further.LotId == lotId));
        }

        /// <summary>The certificates that speak of a sample, whatever became of them.</summary>
        public IQueryable<Certificate> CertificatesOfSample(Guid sampleId)
        {
            var others = data.FurtherSamples;
            return data.Certificates.Where(one => one.SampleId == sampleId || others.Any(further => further.CertificateId == one.Id && further.SampleId == sampleId));
        }

        /// <summary>The samples of which a certificate speaks with their lots, in the order in which they are printed.</summary>
        internal async Task<IReadOnlyList<(Guid LotId, Guid SampleId)>> SamplesOfAsync(Certificate certificate, CancellationToken cancellation)
        {
            var further = await data.FurtherSamples.Where(one => one.CertificateId == certificate.Id).OrderBy(one => one.Position).Select(one => new { one.LotId, one.SampleId }).ToListAsync(cancellation);
            return [(certificate.LotId, certificate.SampleId), .. further.Select(one => (one.LotId, one.SampleId))];
        }

        /// <summary>The lots of which a certificate speaks.</summary>
        internal async Task<IReadOnlyList<Guid>> LotIdsOfAsync(Certificate certificate, CancellationToken cancellation) => [.. (await data.SamplesOfAsync(certificate, cancellation)).Select(one => one.LotId).Distinct()];
    }
}

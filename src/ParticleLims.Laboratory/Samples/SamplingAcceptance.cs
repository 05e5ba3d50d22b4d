using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Samples;

/// <summary>The quality manager's signature that a sample counts although the sampling plan was not carried out. Written once; the certificate prints it.</summary>
public sealed class SamplingAcceptance
{
    /// <summary>The meaning of the signature.</summary>
    public const string Meaning = "accepted as sampled";
    public Guid Id { get; init; }
    public Guid SampleId { get; init; }
    public required string SampleCode { get; init; }

    /// <summary>What the sample lacks, as the blocker said it.</summary>
    public required string Lacks { get; init; }
    public required string Reason { get; init; }
    public required string PersonName { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid SignatureId { get; init; }

    /// <summary>The canonical content of the signature.</summary>
    internal static string ContentOf(string sample, string lacks, string reason) => JsonSerializer.Serialize(new { sample, lacks, reason });
}

/// <summary>What a quality manager signs who accepts a sample as it was sampled.</summary>
public sealed class SignedSampling : ISignedThing
{
    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind != nameof(Sample))
        {
            return null;
        }

        var sample = await data.Samples.AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        var given = await data.SamplingAcceptances.AsNoTracking().FirstOrDefaultAsync(one => one.SignatureId == signature.Id, cancellation);
        return sample is null || given is null || given.Lacks != sample.SamplingLacks ? string.Empty : SamplingAcceptance.ContentOf(sample.Code, given.Lacks, given.Reason);
    }
}

internal sealed class SamplingAcceptanceTable : IEntityTypeConfiguration<SamplingAcceptance>
{
    public void Configure(EntityTypeBuilder<SamplingAcceptance> builder)
    {
        builder.ToTable("sampling_acceptances").HasIndex(one => one.SampleId).IsUnique();
        builder.Property(one => one.SampleCode).HasMaxLength(20);
        builder.HasOne<Sample>().WithMany().HasForeignKey(one => one.SampleId);
        builder.HasOne<Signature>().WithMany().HasForeignKey(one => one.SignatureId);
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ParticleLims.Laboratory.Cautions;

/// <summary>A person has read a caution in one version of the texts. Written once.</summary>
public sealed class CautionAcknowledgement
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The caution's code, for example <c>C-10</c>.</summary>
    public required string Code { get; init; }

    /// <summary>The version of the texts that was read.</summary>
    public int TextsVersion { get; init; }
    public DateTimeOffset At { get; init; }
}

internal sealed class CautionAcknowledgementTable : IEntityTypeConfiguration<CautionAcknowledgement>
{
    public void Configure(EntityTypeBuilder<CautionAcknowledgement> builder)
    {
        builder.ToTable("caution_acknowledgements").HasIndex(one => new { one.PersonId, one.TextsVersion, one.Code }).IsUnique();
        builder.Property(one => one.Code).HasMaxLength(10);
    }
}

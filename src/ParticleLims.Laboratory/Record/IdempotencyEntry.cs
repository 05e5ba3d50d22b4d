using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ParticleLims.Laboratory.Record;

/// <summary>A deed that was carried out under an idempotency key, and what it answered.</summary>
internal sealed class IdempotencyEntry : IOutsideRecord
{
    public required string Key { get; init; }
    public required string Code { get; init; }
    public Guid? PersonId { get; init; }

    /// <summary>SHA-256 of what was asked, hexadecimal, so that the same key for something else is refused.</summary>
    public required string Asked { get; init; }

    /// <summary>The answer as JSON.</summary>
    public required string Answer { get; init; }
    public long EventSequence { get; init; }
    public DateTimeOffset At { get; init; }
}

internal sealed class IdempotencyTable : IEntityTypeConfiguration<IdempotencyEntry>
{
    public void Configure(EntityTypeBuilder<IdempotencyEntry> builder)
    {
        builder.ToTable("idempotency_keys").HasKey(entry => entry.Key);
        builder.Property(entry => entry.Key).HasMaxLength(120);
        builder.Property(entry => entry.Code).HasMaxLength(80);
        builder.Property(entry => entry.Asked).HasMaxLength(64);
    }
}

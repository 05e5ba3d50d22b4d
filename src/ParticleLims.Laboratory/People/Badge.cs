using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>A badge says who stands at a shared terminal; the PIN proves it. Its code is printed once and stored as a hash.</summary>
public sealed class Badge : IVersioned
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The number printed below the code, for speaking of it: <c>B-0003</c>.</summary>
    public required string Number { get; init; }

    /// <summary>SHA-256 of the code.</summary>
    [Secret]
    public required string CodeHash { get; init; }
    public DateTimeOffset IssuedAt { get; init; }
    public DateTimeOffset? RevokedAt { get; set; }
    public long Version { get; set; }
}

internal sealed class BadgeTable : IEntityTypeConfiguration<Badge>
{
    public void Configure(EntityTypeBuilder<Badge> builder)
    {
        builder.ToTable("badges").HasIndex(badge => badge.CodeHash).IsUnique();
        builder.Property(badge => badge.Number).HasMaxLength(20);
        builder.Property(badge => badge.CodeHash).HasMaxLength(64);
        builder.HasOne<Person>().WithMany().HasForeignKey(badge => badge.PersonId);
    }
}

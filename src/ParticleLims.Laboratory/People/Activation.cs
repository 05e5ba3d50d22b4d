using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>A code with which a person sets their own password once: for a new account, or when the password was lost. Nobody else ever knows the password.</summary>
public sealed class Activation : IVersioned
{
    /// <summary>How long a code is good.</summary>
    public static readonly TimeSpan Lasts = TimeSpan.FromDays(3);

    /// <summary>20 letters of 18 are 83 bits.</summary>
    internal const int Letters = 20;

    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>SHA-256 of the code.</summary>
    [Secret]
    public required string CodeHash { get; init; }
    public Guid IssuedById { get; init; }
    public required string IssuedBy { get; init; }
    public DateTimeOffset IssuedAt { get; init; }
    public DateTimeOffset ExpiresAt { get; init; }

    /// <summary>Whether the account had no password before: nobody could have signed under its name.</summary>
    public bool First { get; init; }
    public DateTimeOffset? UsedAt { get; set; }

    /// <summary>When a later code replaced it.</summary>
    public DateTimeOffset? ReplacedAt { get; set; }

    /// <summary>Who confirmed, other than whoever issued it, that it was the person who used it.</summary>
    public string? ConfirmedBy { get; set; }
    public DateTimeOffset? ConfirmedAt { get; set; }
    public long Version { get; set; }
}

internal sealed class ActivationTable : IEntityTypeConfiguration<Activation>
{
    public void Configure(EntityTypeBuilder<Activation> builder)
    {
        builder.ToTable("activations").HasIndex(activation => activation.PersonId);
        builder.Property(activation => activation.CodeHash).HasMaxLength(64);
        builder.Property(activation => activation.IssuedBy).HasMaxLength(200);
        builder.Property(activation => activation.ConfirmedBy).HasMaxLength(200);
        builder.HasOne<Person>().WithMany().HasForeignKey(activation => activation.PersonId);
    }
}

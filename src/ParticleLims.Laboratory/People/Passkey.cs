using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>
/// A passkey of a person (W3C Web Authentication): the public half of a key pair whose private half never leaves the person's device, which asks for a finger,
/// a face or a PIN of its own before it answers.
/// </summary>
public sealed class Passkey : IVersioned
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>What the person calls it.</summary>
    public required string Name { get; init; }

    /// <summary>The name that the device gave it.</summary>
    public required byte[] CredentialId { get; init; }

    /// <summary>The public key, COSE-encoded.</summary>
    public required byte[] PublicKey { get; init; }

    /// <summary>How often the device says it has answered; zero where it does not count. One that falls is a copy.</summary>
    public long SignCount { get; set; }

    /// <summary>How the device is reached, as it said: usb, nfc, ble, internal, hybrid; with commas.</summary>
    public required string Transports { get; init; }

    /// <summary>Whether the device may copy it to others of the same owner.</summary>
    public bool BackupEligible { get; init; }

    /// <summary>Whether it has done so.</summary>
    public bool BackedUp { get; set; }
    public DateTimeOffset MadeAt { get; init; }
    public DateTimeOffset? LastUsedAt { get; set; }
    public DateTimeOffset? RevokedAt { get; set; }
    public long Version { get; set; }
}

internal sealed class PasskeyTable : IEntityTypeConfiguration<Passkey>
{
    public void Configure(EntityTypeBuilder<Passkey> builder)
    {
        builder.ToTable("passkeys").HasIndex(passkey => passkey.CredentialId).IsUnique();
        builder.Property(passkey => passkey.Name).HasMaxLength(60);
        builder.Property(passkey => passkey.CredentialId).HasMaxLength(1_023);
        builder.Property(passkey => passkey.PublicKey).HasMaxLength(4_096);
        builder.Property(passkey => passkey.Transports).HasMaxLength(100);
        builder.HasOne<Person>().WithMany().HasForeignKey(passkey => passkey.PersonId);
    }
}

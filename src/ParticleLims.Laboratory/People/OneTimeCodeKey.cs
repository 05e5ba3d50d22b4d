using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using OtpNet;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>Keeps a secret readable for this program alone. Implemented where the keys of the installation lie, outside the database.</summary>
public interface ISecretSealing
{
    /// <summary>The secret as it may be stored.</summary>
    string Seal(string secret);

    /// <summary>The secret again; null when it was sealed by keys that are not here any more.</summary>
    string? Open(string sealedSecret);
}

/// <summary>
/// The key that a person's authenticator shares with the laboratory, for time-based one-time codes (RFC 6238): HMAC-SHA-1, 30 seconds, six digits, the
/// values that every authenticator knows. A code is good once.
/// </summary>
public sealed class OneTimeCodeKey : IVersioned
{
    /// <summary>RFC 4226, 4, R6 recommends 160 bits.</summary>
    internal const int KeyBytes = 20;

    // One step to either side: clocks of hand-held devices are not exact (RFC 6238, 5.2).
    private static readonly VerificationWindow Window = new(previous: 1, future: 1);

    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The key as the installation's own keys sealed it.</summary>
    [Secret]
    public required string SealedKey { get; init; }
    public DateTimeOffset MadeAt { get; init; }

    /// <summary>When a first code proved that the authenticator holds it; null until then, and it is not asked for.</summary>
    public DateTimeOffset? ConfirmedAt { get; set; }
    public DateTimeOffset? RemovedAt { get; set; }

    /// <summary>The time step of the last code that was taken: neither it nor an earlier one is taken again.</summary>
    public long LastStep { get; set; }
    public long Version { get; set; }

    /// <summary>The time step of a right code that was not used yet; null for any other.</summary>
    /// <param name="key">The key in Base32.</param>
    /// <param name="code">The code as typed.</param>
    /// <param name="now">The present time.</param>
    internal long? StepOf(string key, string code, DateTimeOffset now) =>
        new Totp(Base32Encoding.ToBytes(key)).VerifyTotp(now.UtcDateTime, code, out var step, Window) && step > LastStep ? step : null;
}

/// <summary>A code for the day on which the authenticator is lost; good once.</summary>
public sealed class RecoveryCode : IVersioned
{
    /// <summary>So many are made at once.</summary>
    internal const int AtOnce = 8;

    /// <summary>20 letters of 18 are 83 bits.</summary>
    internal const int Letters = 20;

    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>SHA-256 of the code.</summary>
    [Secret]
    public required string CodeHash { get; init; }
    public DateTimeOffset MadeAt { get; init; }
    public DateTimeOffset? UsedAt { get; set; }
    public DateTimeOffset? RemovedAt { get; set; }
    public long Version { get; set; }
}

/// <summary>What the laboratory demands of those who decide: one row, missing while nothing is demanded.</summary>
public sealed class SignOnRules : IVersioned
{
    /// <summary>The key of the only row.</summary>
    public static Guid OnlyId { get; } = new("6c696d73-0000-7000-8000-000000000002");

    public Guid Id { get; init; } = OnlyId;

    /// <summary>Whether deciding, issuing certificates, approving and administration ask for a session with a second factor.</summary>
    public bool SecondFactorForDecisions { get; set; }
    public long Version { get; set; }
}

internal sealed class SecondFactorTables : IEntityTypeConfiguration<OneTimeCodeKey>, IEntityTypeConfiguration<RecoveryCode>, IEntityTypeConfiguration<SignOnRules>
{
    public void Configure(EntityTypeBuilder<OneTimeCodeKey> builder)
    {
        builder.ToTable("one_time_code_keys").HasIndex(key => key.PersonId);
        builder.Property(key => key.SealedKey).HasMaxLength(1_000);
        builder.HasOne<Person>().WithMany().HasForeignKey(key => key.PersonId);
    }

    public void Configure(EntityTypeBuilder<RecoveryCode> builder)
    {
        builder.ToTable("recovery_codes").HasIndex(code => code.PersonId);
        builder.Property(code => code.CodeHash).HasMaxLength(64);
        builder.HasOne<Person>().WithMany().HasForeignKey(code => code.PersonId);
    }

    public void Configure(EntityTypeBuilder<SignOnRules> builder) => builder.ToTable("sign_on_rules");
}

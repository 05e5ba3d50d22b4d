using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>How somebody signed on.</summary>
public enum SignOnWay
{
    /// <summary>By name and password.</summary>
    Password,
    /// <summary>By choosing the name at an enrolled terminal, and the PIN.</summary>
    NameAndPin,
    /// <summary>By the badge at an enrolled terminal, and the PIN.</summary>
    BadgeAndPin,
    /// <summary>By name, password and a one-time code.</summary>
    PasswordAndCode,
    /// <summary>By a passkey, which is something held and something known or grown in one.</summary>
    Passkey,
}

/// <summary>What a way of signing on is worth.</summary>
public static class SignOnWays
{
    /// <summary>Whether it was with a PIN, which carries no power of the office.</summary>
    public static bool IsByPin(this SignOnWay way) => way is SignOnWay.NameAndPin or SignOnWay.BadgeAndPin;

    /// <summary>Whether a second factor was given.</summary>
    public static bool HasSecondFactor(this SignOnWay way) => way is SignOnWay.PasswordAndCode or SignOnWay.Passkey;
}

/// <summary>Why a session is over. The first six were done and are stored; the others follow from what is so now.</summary>
public enum SessionEnd
{
    /// <summary>The person signed off.</summary>
    SignedOff,
    /// <summary>The person locked the terminal.</summary>
    Locked,
    /// <summary>The person made room for somebody else.</summary>
    HandedOver,
    /// <summary>Nobody touched the terminal for the set time.</summary>
    Idle,
    /// <summary>Somebody else signed on in the same browser.</summary>
    TakenOver,
    /// <summary>The browser became a shared terminal.</summary>
    Enrolled,
    /// <summary>The account was disabled.</summary>
    AccountDisabled,
    /// <summary>The roles or the password were changed.</summary>
    AccessChanged,
    /// <summary>The badge was revoked.</summary>
    BadgeRevoked,
    /// <summary>The terminal was withdrawn.</summary>
    TerminalWithdrawn,
    /// <summary>The session lasted as long as a session may.</summary>
    Expired,
}

/// <summary>One stretch in which one person acts at one terminal.</summary>
public sealed class Session : IVersioned
{
    /// <summary>The longest that a session lasts.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(12);

    /// <summary>128 random bits.</summary>
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>The terminal's name at that time.</summary>
    public required string Terminal { get; init; }

    /// <summary>The enrolled terminal; null at any other browser.</summary>
    public Guid? TerminalId { get; init; }

    /// <summary>The badge by which the person was known; null without.</summary>
    public Guid? BadgeId { get; init; }
    public SignOnWay Way { get; init; }

    /// <summary>The account's stamp at that time: once it differs, roles or password were changed since.</summary>
    [Secret]
    public required string Stamp { get; init; }
    public DateTimeOffset BegunAt { get; init; }
    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>Why it was ended; null while it was not.</summary>
    public SessionEnd? EndReason { get; set; }
    public long Version { get; set; }
}

internal sealed class SessionTable : IEntityTypeConfiguration<Session>
{
    public void Configure(EntityTypeBuilder<Session> builder)
    {
        builder.ToTable("sessions");
        builder.Property(session => session.Terminal).HasMaxLength(100);
        builder.HasOne<Person>().WithMany().HasForeignKey(session => session.PersonId);
        builder.HasOne<Terminal>().WithMany().HasForeignKey(session => session.TerminalId);
        builder.HasOne<Badge>().WithMany().HasForeignKey(session => session.BadgeId);
        builder.HasIndex(session => new { session.Terminal, session.BegunAt });
    }
}

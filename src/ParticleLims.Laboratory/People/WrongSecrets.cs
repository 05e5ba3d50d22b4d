using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>Where a secret is tried. Wrong ones are counted for each place on its own: whoever tries from elsewhere makes nobody wait at the bench.</summary>
/// <param name="Key">A running session, an enrolled terminal, or every other browser together.</param>
/// <param name="Terminal">The terminal's name for the record.</param>
internal sealed record SecretPlace(string Key, string Terminal)
{
    private const string EnrolledBegins = "terminal ";

    /// <summary>At a browser, by somebody who is not signed on there.</summary>
    public static SecretPlace At(TerminalSeen at) => new(at.Id is { } id ? $"{EnrolledBegins}{id:D}" : "elsewhere", at.Name);

    /// <summary>Within a session.</summary>
    public static SecretPlace Of(Actor actor) => new(actor.SessionId is { } id ? $"session {id:D}" : "elsewhere", actor.Terminal);

    /// <summary>The same for a passkey, which nobody guesses: it is no part of what others made wait.</summary>
    public SecretPlace ForPasskey() => this with { Key = "passkey" };

    /// <summary>Whether a key names an enrolled terminal, the only place where a PIN is taken.</summary>
    public static bool IsEnrolled(string key) => key.StartsWith(EnrolledBegins, StringComparison.Ordinal);
}

/// <summary>The wrong passwords, PINs and codes in a row for one account from one place.</summary>
public sealed class WrongSecrets : IVersioned
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }

    /// <summary>Where they were tried.</summary>
    public required string Place { get; init; }
    public int Count { get; set; }

    /// <summary>Until when nothing is tried from there; null while nobody has to wait.</summary>
    public DateTimeOffset? WaitUntil { get; set; }
    public long Version { get; set; }
}

internal sealed class WrongSecretsTable : IEntityTypeConfiguration<WrongSecrets>
{
    public void Configure(EntityTypeBuilder<WrongSecrets> builder)
    {
        builder.ToTable("wrong_secrets").HasIndex(wrong => new { wrong.PersonId, wrong.Place }).IsUnique();
        builder.Property(wrong => wrong.Place).HasMaxLength(60);
        builder.HasOne<Person>().WithMany().HasForeignKey(wrong => wrong.PersonId);
    }
}

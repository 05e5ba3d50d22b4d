using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Terminals;

/// <summary>A shared terminal: a browser that keeps a secret by which it is known. Terminals are withdrawn, never deleted.</summary>
public sealed class Terminal : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>What the record calls it.</summary>
    public required string Name { get; set; }

    /// <summary>Where it stands.</summary>
    public required string Place { get; set; }

    /// <summary>Whether a scanner is at hand.</summary>
    public bool HasScanner { get; set; }

    /// <summary>SHA-256 of the secret that the browser keeps; null until the code was typed there.</summary>
    [Secret]
    public string? SecretHash { get; set; }

    /// <summary>SHA-256 of the one-time code; null when none was made or it was used.</summary>
    [Secret(Guessable = true)]
    public string? CodeHash { get; set; }

    /// <summary>Until when the code can be used.</summary>
    public DateTimeOffset? CodeExpiresAt { get; set; }

    /// <summary>When the browser was enrolled; null until then.</summary>
    public DateTimeOffset? EnrolledAt { get; set; }

    /// <summary>When it was withdrawn; its sessions are over since.</summary>
    public DateTimeOffset? WithdrawnAt { get; set; }
    public long Version { get; set; }
}

internal sealed class TerminalTable : IEntityTypeConfiguration<Terminal>
{
    public void Configure(EntityTypeBuilder<Terminal> builder)
    {
        builder.ToTable("terminals");
        builder.Property(terminal => terminal.Name).HasMaxLength(40);
        builder.Property(terminal => terminal.Place).HasMaxLength(100);
        builder.Property(terminal => terminal.SecretHash).HasMaxLength(64);
        builder.Property(terminal => terminal.CodeHash).HasMaxLength(64);
        builder.HasIndex(terminal => terminal.SecretHash).IsUnique();
        builder.HasIndex(terminal => terminal.CodeHash).IsUnique();
    }
}

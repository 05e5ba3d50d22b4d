using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>One event of the record: one deed, written in the transaction of the deed, never changed, chained by hash to the one before.</summary>
public sealed class RecordEvent
{
    /// <summary>1, 2, 3, … without a gap.</summary>
    public long Sequence { get; init; }
    public DateTimeOffset At { get; init; }
    public Guid? PersonId { get; init; }

    /// <summary>The name as it was then.</summary>
    public required string PersonName { get; init; }
    public required string Terminal { get; init; }
    public required string Code { get; init; }
    public required string SubjectKind { get; init; }
    public Guid SubjectId { get; init; }
    public required string SubjectLabel { get; init; }
    public string? Reason { get; init; }

    /// <summary>Old and new values as JSON: <c>[{"thing","id","change","values":{"Name":[old,new]}}]</c>.</summary>
    public required string Changes { get; init; }

    /// <summary>Subject, person and code as they are searched: upper case. Derived, so the hash leaves it out.</summary>
    public required string SearchText { get; init; }

    /// <summary>What <see cref="SearchText"/> is made of.</summary>
    public static string SearchTextOf(string subjectLabel, string personName, string code) => $"{subjectLabel} {personName} {code}".ToUpperInvariant();

    /// <summary>The hash of the event before, hexadecimal; 64 zeros on the first.</summary>
    public required string PreviousHash { get; init; }

    /// <summary>SHA-256 over the canonical form of all above, hexadecimal.</summary>
    public required string Hash { get; init; }
}

internal sealed class RecordEventTable : IEntityTypeConfiguration<RecordEvent>
{
    public void Configure(EntityTypeBuilder<RecordEvent> builder)
    {
        builder.ToTable("record_events").HasKey(one => one.Sequence);
        builder.Property(one => one.Sequence).ValueGeneratedNever();
        builder.Property(one => one.Code).HasMaxLength(80);
        builder.Property(one => one.PersonName).HasMaxLength(200);
        builder.Property(one => one.Terminal).HasMaxLength(100);
        builder.Property(one => one.SubjectKind).HasMaxLength(60);
        builder.Property(one => one.SubjectLabel).HasMaxLength(200);
        builder.Property(one => one.Hash).HasMaxLength(64);
        builder.Property(one => one.PreviousHash).HasMaxLength(64);
        builder.HasIndex(one => one.SubjectId);
        builder.HasIndex(one => one.At);
        builder.HasIndex(one => one.Hash).IsUnique();
    }
}

/// <summary>Names the record's tables.</summary>
public static class RecordTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All events.</summary>
        public DbSet<RecordEvent> Events => data.Set<RecordEvent>();

        /// <summary>All signatures.</summary>
        public DbSet<Signature> Signatures => data.Set<Signature>();
    }
}

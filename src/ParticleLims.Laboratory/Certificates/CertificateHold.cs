using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>A case that suspends a certificate while it is open.</summary>
public sealed class CertificateHold : IVersioned
{
    public Guid Id { get; init; }
    public Guid CertificateId { get; init; }
    public HoldingCaseKind CaseKind { get; init; }
    public Guid CaseId { get; init; }

    /// <summary>For example <c>E-26-00001</c>.</summary>
    public required string CaseNumber { get; init; }
    public DateTimeOffset At { get; init; }

    /// <summary>Whether it was suspended for another reason than a case already: closing the case leaves that as it is.</summary>
    public bool SuspendedBefore { get; init; }
    public DateTimeOffset? EndedAt { get; private set; }

    /// <summary>What the case decided.</summary>
    public string? Outcome { get; private set; }

    /// <summary>Whether it ended without lifting the suspension.</summary>
    public bool Kept { get; private set; }
    public long Version { get; set; }

    internal void End(DateTimeOffset at, string outcome, bool kept) => (EndedAt, Outcome, Kept) = (at, outcome, kept);
}

internal sealed class CertificateHoldTable : IEntityTypeConfiguration<CertificateHold>
{
    public void Configure(EntityTypeBuilder<CertificateHold> builder)
    {
        builder.ToTable("certificate_holds").HasIndex(hold => new { hold.CaseId, hold.CertificateId }).IsUnique();
        builder.HasIndex(hold => hold.CertificateId);
        builder.Property(hold => hold.CaseNumber).HasMaxLength(20);
        builder.Property(hold => hold.Outcome).HasMaxLength(200);
        builder.HasOne<Certificate>().WithMany().HasForeignKey(hold => hold.CertificateId);
    }
}

/// <summary>Names the table.</summary>
public static class CertificateHoldsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All cases that suspend or suspended certificates.</summary>
        public DbSet<CertificateHold> CertificateHolds => data.Set<CertificateHold>();
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>The decision on a lot, signed, written once.</summary>
public sealed class Disposition
{
    public Guid Id { get; init; }
    public Guid LotId { get; init; }

    /// <summary>Released, on hold, rejected or released by concession.</summary>
    public LotState Decision { get; init; }
    public Guid PersonId { get; init; }
    public required string PersonName { get; init; }
    public DateTimeOffset At { get; init; }
    public string? Reason { get; init; }
    public Guid SignatureId { get; init; }
}

/// <summary>Somebody asks the quality manager for a concession, and why.</summary>
public sealed class ConcessionProposal
{
    public Guid Id { get; init; }
    public Guid LotId { get; init; }
    public Guid ProposedById { get; init; }
    public required string ProposedByName { get; init; }
    public DateTimeOffset At { get; init; }
    public required string Reason { get; init; }
}

/// <summary>Somebody asks for a decided lot to be opened again, and why.</summary>
public sealed class ReopeningProposal
{
    public Guid Id { get; init; }
    public Guid LotId { get; init; }
    public Guid ProposedById { get; init; }
    public required string ProposedByName { get; init; }
    public DateTimeOffset At { get; init; }
    public required string Reason { get; init; }
}

internal sealed class DispositionTables : IEntityTypeConfiguration<Disposition>, IEntityTypeConfiguration<ConcessionProposal>, IEntityTypeConfiguration<ReopeningProposal>
{
    public void Configure(EntityTypeBuilder<Disposition> builder)
    {
        builder.ToTable("dispositions").HasIndex(disposition => disposition.LotId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(disposition => disposition.LotId);
    }

    public void Configure(EntityTypeBuilder<ConcessionProposal> builder)
    {
        builder.ToTable("concession_proposals").HasIndex(proposal => proposal.LotId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(proposal => proposal.LotId);
    }

    public void Configure(EntityTypeBuilder<ReopeningProposal> builder)
    {
        builder.ToTable("reopening_proposals").HasIndex(proposal => proposal.LotId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(proposal => proposal.LotId);
    }
}

/// <summary>Names the tables.</summary>
public static class DispositionsTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All decisions.</summary>
        public DbSet<Disposition> Dispositions => data.Set<Disposition>();

        /// <summary>All proposals of concessions.</summary>
        public DbSet<ConcessionProposal> ConcessionProposals => data.Set<ConcessionProposal>();
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

internal sealed class InvestigationTables : IEntityTypeConfiguration<Investigation>, IEntityTypeConfiguration<InvestigationNote>, IEntityTypeConfiguration<PointAnswer>, IEntityTypeConfiguration<AssociatedLot>,
    IEntityTypeConfiguration<Hypothesis>, IEntityTypeConfiguration<HypothesisMeasurement>, IEntityTypeConfiguration<RetestPlan>
{
    public void Configure(EntityTypeBuilder<Investigation> builder)
    {
        builder.ToTable("investigations").HasIndex(investigation => investigation.Number).IsUnique();
        builder.Property(investigation => investigation.Number).HasMaxLength(20);
        builder.HasIndex(investigation => investigation.LotId);
        builder.HasIndex(investigation => investigation.RunId);
        builder.HasOne<Lot>().WithMany().HasForeignKey(investigation => investigation.LotId);
        builder.HasMany(investigation => investigation.Notes).WithOne().HasForeignKey(note => note.InvestigationId);
        builder.HasMany(investigation => investigation.Answers).WithOne().HasForeignKey(answer => answer.InvestigationId);
        builder.HasMany(investigation => investigation.AssociatedLots).WithOne().HasForeignKey(lot => lot.InvestigationId);
        builder.HasMany(investigation => investigation.Hypotheses).WithOne().HasForeignKey(one => one.InvestigationId);
        builder.HasMany(investigation => investigation.RetestPlans).WithOne().HasForeignKey(plan => plan.InvestigationId);
        builder.Ignore(investigation => investigation.Unanswered).Ignore(investigation => investigation.Retests);
    }

    public void Configure(EntityTypeBuilder<InvestigationNote> builder) => builder.ToTable("investigation_notes");

    public void Configure(EntityTypeBuilder<PointAnswer> builder) => builder.ToTable("investigation_answers").Property(answer => answer.Words).HasMaxLength(2_000);

    public void Configure(EntityTypeBuilder<AssociatedLot> builder)
    {
        builder.ToTable("associated_lots").Property(lot => lot.Words).HasMaxLength(2_000);
        builder.HasOne<Lot>().WithMany().HasForeignKey(lot => lot.LotId);
    }

    public void Configure(EntityTypeBuilder<Hypothesis> builder)
    {
        builder.ToTable("hypotheses").HasMany(one => one.Measurements).WithOne().HasForeignKey(measurement => measurement.HypothesisId);
        builder.Property(one => one.What).HasMaxLength(2_000);
    }

    public void Configure(EntityTypeBuilder<HypothesisMeasurement> builder)
    {
        builder.ToTable("hypothesis_measurements").Property(measurement => measurement.What).HasMaxLength(400);
        builder.Property(measurement => measurement.Unit).HasMaxLength(20);
    }

    public void Configure(EntityTypeBuilder<RetestPlan> builder) => builder.ToTable("retest_plans").Property(plan => plan.Portion).HasMaxLength(2_000);
}

/// <summary>Names the table.</summary>
public static class InvestigationsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All investigations.</summary>
        public DbSet<Investigation> Investigations => data.Set<Investigation>();

        /// <summary>The investigations, other than of values out of trend, of a run and of the other replicates of its sample: what they show together was out.</summary>
        internal IQueryable<Investigation> OfSampleOf(Run run) =>
            data.Investigations.Where(one => one.Kind != InvestigationKind.OutOfTrend && data.Set<Run>().Any(shown => shown.Id == one.RunId && shown.SampleId == run.SampleId));
    }

    /// <summary>With everything that is written in them.</summary>
    internal static IQueryable<Investigation> Whole(this IQueryable<Investigation> investigations) =>
        investigations.Include(one => one.Notes.OrderBy(note => note.At)).Include(one => one.Answers.OrderBy(answer => answer.At)).Include(one => one.AssociatedLots.OrderBy(lot => lot.At))
            .Include(one => one.Hypotheses.OrderBy(hypothesis => hypothesis.ProposedAt)).ThenInclude(one => one.Measurements.OrderBy(measurement => measurement.At))
            .Include(one => one.RetestPlans.OrderBy(plan => plan.ProposedAt)).AsSplitQuery();
}

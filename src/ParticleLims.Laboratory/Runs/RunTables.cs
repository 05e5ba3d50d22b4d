using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

internal sealed class RunMapping
    : IEntityTypeConfiguration<Run>, IEntityTypeConfiguration<RunSieve>, IEntityTypeConfiguration<Weighing>, IEntityTypeConfiguration<SievingInterval>, IEntityTypeConfiguration<Preparation>, IEntityTypeConfiguration<SieveScan>, IEntityTypeConfiguration<SieveLook>,
      IEntityTypeConfiguration<Evaluation>
{
    public void Configure(EntityTypeBuilder<Run> builder)
    {
        builder.ToTable("runs").HasIndex(run => run.Number).IsUnique();
        builder.Property(run => run.Number).HasMaxLength(20);
        builder.Ignore(run => run.Label).Ignore(run => run.Place).Ignore(run => run.Counts).Ignore(run => run.StandingWeighings);
        builder.HasIndex(run => run.SampleId);
        builder.HasIndex(run => run.RetestPlanId);
        builder.HasIndex(run => run.LotId);
        builder.HasIndex(run => new { run.State, run.PlannedAt });
        builder.HasIndex(run => new { run.ProductId, run.SubmittedAt });
        builder.HasOne<Lot>().WithMany().HasForeignKey(run => run.LotId);
        builder.HasOne<MethodVersion>().WithMany().HasForeignKey(run => run.MethodVersionId);
        builder.HasOne<Balance>().WithMany().HasForeignKey(run => run.BalanceId);

        // No key to the sieving unit: SQLite adds one to a standing table only by building the table again,
        // outside a transaction. The deed that writes the unit has read it first.
        builder.HasIndex(run => run.SievingUnitId);
        builder.HasMany(run => run.Sieves).WithOne().HasForeignKey(sieve => sieve.RunId);
        builder.HasMany(run => run.Weighings).WithOne().HasForeignKey(weighing => weighing.RunId);
        builder.HasMany(run => run.Intervals).WithOne().HasForeignKey(interval => interval.RunId);
        builder.HasMany(run => run.Preparations).WithOne().HasForeignKey(preparation => preparation.RunId);
        builder.HasMany(run => run.Scans).WithOne().HasForeignKey(scan => scan.RunId);
        builder.HasMany(run => run.Operators).WithOne().HasForeignKey(one => one.RunId);
        builder.HasMany(run => run.Looks).WithOne().HasForeignKey(look => look.RunId);
    }

    public void Configure(EntityTypeBuilder<RunSieve> builder)
    {
        builder.ToTable("run_sieves").HasKey(sieve => new { sieve.RunId, sieve.Position });
        builder.HasOne<TestSieve>().WithMany().HasForeignKey(sieve => sieve.SieveId);
    }

    public void Configure(EntityTypeBuilder<Weighing> builder)
    {
        builder.ToTable("weighings").HasIndex(weighing => weighing.RunId);
        builder.HasIndex(weighing => weighing.SupersedesId).IsUnique();
    }

    public void Configure(EntityTypeBuilder<SievingInterval> builder)
    {
        builder.ToTable("sieving_intervals").HasIndex(interval => interval.RunId);
        builder.Property(interval => interval.PressureCourse).HasMaxLength(20_000);
        builder.Ignore(interval => interval.Course);
    }

    public void Configure(EntityTypeBuilder<Preparation> builder)
    {
        builder.ToTable("preparations").HasIndex(preparation => preparation.RunId);
        builder.Ignore(preparation => preparation.Minutes);
        builder.Property(preparation => preparation.Note).HasMaxLength(100);
    }

    public void Configure(EntityTypeBuilder<SieveScan> builder) => builder.ToTable("sieve_scans").HasIndex(scan => scan.RunId);

    public void Configure(EntityTypeBuilder<SieveLook> builder)
    {
        builder.ToTable("sieve_looks").HasIndex(look => look.RunId);
        builder.Property(look => look.Seen).HasMaxLength(1000);
    }

    public void Configure(EntityTypeBuilder<Evaluation> builder)
    {
        builder.ToTable("evaluations").HasIndex(evaluation => evaluation.RunId);
        builder.Property(evaluation => evaluation.ResultHash).HasMaxLength(64);
    }
}

/// <summary>Names the tables.</summary>
public static class RunsTables
{
    /// <summary>How the codes of all deeds on a run begin: whoever did one of them took part in it.</summary>
    internal const string DeedFamily = "runs.";

    extension(LaboratoryContext data)
    {
        /// <summary>All runs.</summary>
        public DbSet<Run> Runs => data.Set<Run>();

        /// <summary>All weighings.</summary>
        public DbSet<Weighing> Weighings => data.Set<Weighing>();

        /// <summary>All evaluations.</summary>
        public DbSet<Evaluation> Evaluations => data.Set<Evaluation>();
    }
}

/// <summary>Loads runs with their parts.</summary>
public static class WholeRuns
{
    private static readonly CompiledQuery<Guid, Run?> One = new((data, id) =>
        data.Set<Run>().AsTracking().Include(run => run.Sieves).Include(run => run.Weighings).Include(run => run.Intervals).Include(run => run.Preparations).Include(run => run.Scans).Include(run => run.Looks).Include(run => run.Operators).AsSplitQuery().FirstOrDefault(run => run.Id == id));

    private static readonly CompiledQuery<Guid, MethodVersion> Method = new((data, id) => data.Set<MethodVersion>().AsTracking().Include(method => method.Sieves).Single(method => method.Id == id));

    /// <summary>The run that a deed is about, whole.</summary>
    /// <exception cref="RefusedException">There is no such run.</exception>
    internal static async Task<Run> WholeRunAsync(this DeedScope scope, Guid runId) =>
        await One.AskAsync(scope.Data, runId) ?? throw new RefusedException("not-found", "There is no such run.");

    /// <summary>The version of the method by which a run is carried out, with its sieves.</summary>
    internal static Task<MethodVersion> MethodOfAsync(this DeedScope scope, Run run) => Method.AskAsync(scope.Data, run.MethodVersionId);

    /// <summary>With sieves, weighings, intervals, preparations, scans, looks and operators.</summary>
    public static IQueryable<Run> Whole(this IQueryable<Run> runs) => runs.Include(run => run.Sieves).Include(run => run.Weighings).Include(run => run.Intervals).Include(run => run.Preparations).Include(run => run.Scans).Include(run => run.Looks).Include(run => run.Operators).AsSplitQuery();
}

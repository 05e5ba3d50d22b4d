using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

internal sealed class EquipmentFailureTables : IEntityTypeConfiguration<EquipmentFailure>, IEntityTypeConfiguration<TouchedRun>, IEntityTypeConfiguration<TouchedLot>
{
    public void Configure(EntityTypeBuilder<EquipmentFailure> builder)
    {
        builder.ToTable("equipment_failures").HasIndex(failure => failure.Number).IsUnique();
        builder.Property(failure => failure.Number).HasMaxLength(20);
        builder.Property(failure => failure.What).HasMaxLength(1_000);
        builder.Property(failure => failure.Conclusion).HasMaxLength(2_000);
        builder.Ignore(failure => failure.IsOpen);
        builder.HasIndex(failure => failure.EquipmentId);
        builder.HasMany(failure => failure.Runs).WithOne().HasForeignKey(run => run.FailureId);
        builder.HasMany(failure => failure.Lots).WithOne().HasForeignKey(lot => lot.FailureId);
    }

    public void Configure(EntityTypeBuilder<TouchedRun> builder)
    {
        builder.ToTable("touched_runs").HasKey(run => new { run.FailureId, run.RunId });
        builder.Property(run => run.RunNumber).HasMaxLength(20);
        builder.HasIndex(run => run.SampleId);
        builder.HasOne<Run>().WithMany().HasForeignKey(run => run.RunId);
    }

    public void Configure(EntityTypeBuilder<TouchedLot> builder)
    {
        builder.ToTable("touched_lots").HasKey(lot => new { lot.FailureId, lot.LotId });
        builder.Property(lot => lot.Words).HasMaxLength(1_000);
        builder.HasOne<Lot>().WithMany().HasForeignKey(lot => lot.LotId);
    }
}

/// <summary>Names the tables.</summary>
public static class EquipmentFailuresTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All cases of failed equipment.</summary>
        public DbSet<EquipmentFailure> EquipmentFailures => data.Set<EquipmentFailure>();

        /// <summary>All runs that failed equipment touched.</summary>
        public DbSet<TouchedRun> TouchedRuns => data.Set<TouchedRun>();

        /// <summary>The runs that an item touched from an instant on: those that used it, and for a check weight those with a weighing whose balance was last checked with it.</summary>
        internal async Task<IQueryable<Run>> TouchedSinceAsync(Guid equipmentId, DateTimeOffset since, CancellationToken cancellation) =>
            await data.CheckWeights.Where(weight => weight.Id == equipmentId).Select(weight => weight.Serial).FirstOrDefaultAsync(cancellation) is { } serial ? data.CheckedWith(serial, since) : data.UsedSince(equipmentId, since);

        private IQueryable<Run> CheckedWith(string serial, DateTimeOffset since)
        {
            var passed = data.BalanceChecks.Where(check => check.Passed);
            return data.Runs.Where(run => run.Weighings.Any(weighing => passed.Any(check =>
                check.WeightSerial == serial && check.At >= since && check.BalanceId == weighing.BalanceId && check.At <= weighing.At
                && !passed.Any(later => later.BalanceId == check.BalanceId && later.At > check.At && later.At <= weighing.At))));
        }

        /// <summary>The runs that used a piece of equipment from an instant on: a sieve in its place, a balance for a weighing, a sieving unit.</summary>
        internal IQueryable<Run> UsedSince(Guid equipmentId, DateTimeOffset since) => data.Runs.Where(run =>
            run.Weighings.Any(weighing => weighing.BalanceId == equipmentId && weighing.At >= since)
            || ((run.SievingUnitId == equipmentId || run.Sieves.Any(sieve => sieve.SieveId == equipmentId)) && (run.StartedAt >= since || run.Weighings.Any(weighing => weighing.At >= since))));
    }
}

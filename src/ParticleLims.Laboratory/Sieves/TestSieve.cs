using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>One physical test sieve.</summary>
public sealed class TestSieve : IEquipment, IVersioned
{
    public Guid Id { get; init; }

    /// <summary>The number on its frame; unique in the laboratory.</summary>
    public required string Serial { get; init; }

    /// <summary>The nominal aperture.</summary>
    public Aperture Aperture { get; init; }

    /// <summary>Frame diameter in whole millimetres: 200, 203, …</summary>
    public int FrameMillimetres { get; init; }

    /// <summary>The standard of its cloth with edition, as on its certificate.</summary>
    public required string Standard { get; init; }

    /// <summary>Where it hangs.</summary>
    public required string Place { get; set; }
    public string? Maker { get; set; }
    public string? Model { get; set; }
    public EquipmentState State { get; set; }
    public string? StateReason { get; set; }
    public DateOnly? InspectionDueOn { get; set; }
    public DateTimeOffset? InspectedAt { get; set; }

    /// <summary>After how many days the cloth is looked at again.</summary>
    public int InspectEveryDays { get; set; } = SieveCarePlan.UsualDays;

    /// <summary>After how many runs the cloth is looked at again; null where only the days count.</summary>
    public int? InspectEveryRuns { get; set; }

    /// <summary>After how many days it is checked with a reference material again; null where days do not count.</summary>
    public int? ReferenceEveryDays { get; set; }

    /// <summary>After how many runs it is checked with a reference material again; null where runs do not count.</summary>
    public int? ReferenceEveryRuns { get; set; }

    /// <summary>Since when that is asked; a sieve without an earlier check counts from here.</summary>
    public DateTimeOffset? ReferenceFrom { get; set; }

    /// <summary>The standard deviation of its empty mass from weighing to weighing, cleaning included.</summary>
    public Mass TareScatter { get; set; } = SieveCarePlan.UsualTareScatter;

    /// <summary>Since when its empty mass is watched; null for all weighings.</summary>
    public DateTimeOffset? TareFrom { get; set; }

    /// <summary>What its empty mass said since the last inspection, in a sentence; null while it is as it was.</summary>
    public string? TareSignal { get; set; }

    /// <summary>The weighing that said it.</summary>
    public DateTimeOffset? TareSignalAt { get; set; }
    public long Version { get; set; }

    /// <inheritdoc />
    public string Label => $"{Aperture} sieve {Serial}";
}

internal sealed class TestSieveTable : IEntityTypeConfiguration<TestSieve>
{
    public void Configure(EntityTypeBuilder<TestSieve> builder)
    {
        builder.ToTable("test_sieves").HasIndex(sieve => sieve.Serial).IsUnique();
        builder.Property(sieve => sieve.Serial).HasMaxLength(60);
        builder.Property(sieve => sieve.Maker).HasMaxLength(TypePlate.Longest);
        builder.Property(sieve => sieve.Model).HasMaxLength(TypePlate.Longest);
        builder.Property(sieve => sieve.TareSignal).HasMaxLength(400);
        builder.Ignore(sieve => sieve.Label);
        builder.HasIndex(sieve => sieve.Aperture);
    }
}

/// <summary>Names the table.</summary>
public static class SievesTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All test sieves.</summary>
        public DbSet<TestSieve> TestSieves => data.Set<TestSieve>();

        /// <summary>All inspections by the guided list.</summary>
        public DbSet<SieveInspection> SieveInspections => data.Set<SieveInspection>();

        /// <summary>All cleanings.</summary>
        public DbSet<SieveCleaning> SieveCleanings => data.Set<SieveCleaning>();
    }
}

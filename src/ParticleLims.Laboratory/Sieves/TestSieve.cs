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
    public EquipmentState State { get; set; }
    public string? StateReason { get; set; }
    public DateOnly? InspectionDueOn { get; set; }
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
    }
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A weight with which balances are checked.</summary>
public sealed class CheckWeight : IEquipment, IVersioned
{
    public Guid Id { get; init; }

    /// <summary>The number on it or on its case; unique in the laboratory.</summary>
    public required string Serial { get; init; }
    public Mass Nominal { get; init; }

    /// <summary>The accuracy class of OIML R 111-1.</summary>
    public WeightClass Class { get; init; }
    public required string Place { get; set; }

    /// <summary>The conventional mass of its last certificate; the nominal mass until there is one.</summary>
    public Mass ConventionalMass { get; set; }

    /// <summary>The number of its last certificate; empty until there is one.</summary>
    public required string Certificate { get; set; }
    public string? Maker { get; set; }
    public string? Model { get; set; }
    public EquipmentState State { get; set; }
    public string? StateReason { get; set; }

    /// <summary>The last day on which its certificate counts.</summary>
    public DateOnly? InspectionDueOn { get; set; }
    public DateTimeOffset? InspectedAt { get; set; }

    /// <inheritdoc />
    bool IEquipment.StandsByCertificate => true;
    public long Version { get; set; }

    /// <inheritdoc />
    public string Label => string.Create(CultureInfo.InvariantCulture, $"check weight {Nominal.Grams:0.######} g {Class} ({Serial})");
}

/// <summary>A calibration of a check weight, written once.</summary>
public sealed class CheckWeightCalibration
{
    public Guid Id { get; init; }
    public Guid WeightId { get; init; }
    public required string Certificate { get; init; }
    public DateOnly CalibratedOn { get; init; }
    public Mass ConventionalMass { get; init; }

    /// <summary>The expanded uncertainty, coverage factor 2.</summary>
    public Mass ExpandedUncertainty { get; init; }

    /// <summary>With which weight it was compared: its number.</summary>
    public required string ComparedWith { get; init; }
    public DateOnly DueOn { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
}

internal sealed class CheckWeightTables : IEntityTypeConfiguration<CheckWeight>, IEntityTypeConfiguration<CheckWeightCalibration>
{
    public void Configure(EntityTypeBuilder<CheckWeight> builder)
    {
        builder.ToTable("check_weights").HasIndex(weight => weight.Serial).IsUnique();
        builder.Property(weight => weight.Serial).HasMaxLength(60);
        builder.Property(weight => weight.Maker).HasMaxLength(TypePlate.Longest);
        builder.Property(weight => weight.Model).HasMaxLength(TypePlate.Longest);
        builder.Property(weight => weight.Certificate).HasMaxLength(120);
        builder.Ignore(weight => weight.Label);
    }

    public void Configure(EntityTypeBuilder<CheckWeightCalibration> builder)
    {
        builder.ToTable("check_weight_calibrations").HasIndex(one => new { one.WeightId, one.At });
        builder.Property(one => one.Certificate).HasMaxLength(120);
        builder.Property(one => one.ComparedWith).HasMaxLength(120);
        builder.HasOne<CheckWeight>().WithMany().HasForeignKey(one => one.WeightId);
    }
}

/// <summary>Names the tables.</summary>
public static class CheckWeightsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All check weights.</summary>
        public DbSet<CheckWeight> CheckWeights => data.Set<CheckWeight>();
    }
}

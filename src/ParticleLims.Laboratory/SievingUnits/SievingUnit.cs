using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>An air-jet sieving unit or a sieve shaker, perhaps with a pressure gauge on the network.</summary>
public sealed class SievingUnit : IEquipment, IRunsSoftware, IVersioned
{
    public Guid Id { get; init; }

    /// <summary>The number on its plate; unique in the laboratory.</summary>
    public required string Serial { get; init; }
    public required string Name { get; set; }

    /// <summary>Where it stands.</summary>
    public required string Place { get; set; }

    /// <summary>Whether it draws air through the sieve, so that there is a differential pressure.</summary>
    public bool IsAirJet { get; init; }

    /// <summary>The host at which its gauge answers; null where it has none on the network.</summary>
    public string? GaugeHost { get; set; }

    /// <summary>The TCP port of its gauge.</summary>
    public int? GaugePort { get; set; }

    /// <summary>The unit in which its gauge shows.</summary>
    public PressureUnit GaugeUnit { get; set; } = PressureUnit.Kilopascal;
    public string? Maker { get; set; }
    public string? Model { get; set; }
    public string? Software { get; set; }
    public EquipmentState State { get; set; }
    public string? StateReason { get; set; }

    /// <summary>The last day on which its check counts: timer and gauge.</summary>
    public DateOnly? InspectionDueOn { get; set; }
    public DateTimeOffset? InspectedAt { get; set; }
    public long Version { get; set; }

    /// <inheritdoc />
    public string Label => $"{Name} {Serial}";
}

internal sealed class SievingUnitTable : IEntityTypeConfiguration<SievingUnit>
{
    public void Configure(EntityTypeBuilder<SievingUnit> builder)
    {
        builder.ToTable("sieving_units").HasIndex(unit => unit.Serial).IsUnique();
        builder.Property(unit => unit.Serial).HasMaxLength(60);
        builder.Property(unit => unit.Maker).HasMaxLength(TypePlate.Longest);
        builder.Property(unit => unit.Model).HasMaxLength(TypePlate.Longest);
        builder.Property(unit => unit.Software).HasMaxLength(TypePlate.Longest);
        builder.Property(unit => unit.GaugeHost).HasMaxLength(255);
        builder.Ignore(unit => unit.Label);
    }
}

/// <summary>Names the table.</summary>
public static class SievingUnitsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All sieving units.</summary>
        public DbSet<SievingUnit> SievingUnits => data.Set<SievingUnit>();
    }
}

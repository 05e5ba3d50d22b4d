using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>What happened to a piece of equipment: its history, written once.</summary>
public sealed class EquipmentEvent
{
    public Guid Id { get; init; }
    public Guid EquipmentId { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }

    /// <summary>In words: "Registered", "Commissioned", "Out of service".</summary>
    public required string What { get; init; }
    public required string Note { get; init; }
}

internal sealed class EquipmentEventTable : IEntityTypeConfiguration<EquipmentEvent>
{
    public void Configure(EntityTypeBuilder<EquipmentEvent> builder)
    {
        builder.ToTable("equipment_events").HasIndex(one => new { one.EquipmentId, one.At });
        builder.Property(one => one.What).HasMaxLength(80);
    }
}

/// <summary>Names the table.</summary>
public static class EquipmentTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>The history of all equipment.</summary>
        public DbSet<EquipmentEvent> EquipmentEvents => data.Set<EquipmentEvent>();

        /// <summary>The documents of all equipment.</summary>
        public DbSet<EquipmentDocument> EquipmentDocuments => data.Set<EquipmentDocument>();
    }
}

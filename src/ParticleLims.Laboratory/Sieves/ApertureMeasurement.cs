using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>Apertures measured on a sieve, by its maker's document or by the laboratory itself, with the verdict of an edition's tolerances. Written once.</summary>
public sealed class ApertureMeasurement
{
    public Guid Id { get; init; }
    public Guid SieveId { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }

    /// <summary>Which kind of document gives it; <see cref="EquipmentDocumentKind.Other"/> for the laboratory's own measurement.</summary>
    public EquipmentDocumentKind Kind { get; init; }

    /// <summary>The document's number.</summary>
    public required string Document { get; init; }
    public DateOnly MeasuredOn { get; init; }

    /// <summary>The mean of all apertures; the mean of the two directions where the document gives only these.</summary>
    public Aperture Mean { get; init; }

    /// <summary>The mean aperture in the direction of the warp; null where the document does not tell the directions apart.</summary>
    public Aperture? MeanWarp { get; init; }

    /// <summary>The mean aperture in the direction of the weft; null where the document does not tell the directions apart.</summary>
    public Aperture? MeanWeft { get; init; }

    /// <summary>The mean diameter of the wires in whole nanometres; null where the document does not say it.</summary>
    public long? WireNanometres { get; init; }
    public Aperture Largest { get; init; }

    /// <summary>The standard deviation of the apertures; null where the document does not say it.</summary>
    public Aperture? Deviation { get; init; }

    /// <summary>The expanded uncertainty of the mean, coverage factor 2; null where the document does not say it.</summary>
    public Aperture? ExpandedUncertainty { get; init; }

    /// <summary>How many apertures were measured.</summary>
    public int Count { get; init; }

    /// <summary>How many of them lie beyond the intermediate deviation; null where nobody counted.</summary>
    public int? CountBeyond { get; init; }

    /// <summary>The edition whose tolerances it was held against.</summary>
    public required string Edition { get; init; }

    /// <summary>Whether it keeps them; null where something that they ask was not determined.</summary>
    public bool? Conforms { get; init; }

    /// <summary>Each point in a sentence, a line each.</summary>
    public required string Points { get; init; }
}

internal sealed class ApertureMeasurementTable : IEntityTypeConfiguration<ApertureMeasurement>
{
    public void Configure(EntityTypeBuilder<ApertureMeasurement> builder)
    {
        builder.ToTable("aperture_measurements").HasIndex(one => new { one.SieveId, one.At });
        builder.Property(one => one.Document).HasMaxLength(120);
        builder.Property(one => one.Edition).HasMaxLength(120);
        builder.Property(one => one.Points).HasMaxLength(2_000);
        builder.HasOne<TestSieve>().WithMany().HasForeignKey(one => one.SieveId);
    }
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>A reference material with the curve of its certificate. Written once; a new certificate is a new material.</summary>
public sealed class ReferenceMaterial
{
    public Guid Id { get; init; }

    /// <summary>What it is: "Glass beads 50 to 80 µm".</summary>
    public required string Name { get; init; }
    public required string Batch { get; init; }
    public required string Certificate { get; init; }

    /// <summary>The last day on which the certificate counts.</summary>
    public DateOnly GoodUntil { get; init; }

    /// <summary>The curve, a line a point: aperture in µm, passing in %, standard uncertainty of the passing in %.</summary>
    public required string Points { get; init; }
    public DateTimeOffset AddedAt { get; init; }
    public required string AddedByName { get; init; }

    /// <summary>For people.</summary>
    public string Label => $"{Name}, batch {Batch}";

    /// <summary>The curve to read from.</summary>
    public CertificateCurve Curve => CertificateCurve.Through(PointsOf(Points));

    /// <summary>The points of a curve, a line each.</summary>
    /// <exception cref="FormatException">A line that is not two or three numbers.</exception>
    public static IReadOnlyList<CertifiedPoint> PointsOf(string lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        return [.. lines.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(Point)];
    }

    private static CertifiedPoint Point(string line)
    {
        var cells = line.Split([' ', '\t', ';'], StringSplitOptions.RemoveEmptyEntries);
        return cells.Length is 2 or 3
            ? new CertifiedPoint { ApertureMicrometres = Number(cells[0]), PassingPercent = Number(cells[1]), PassingUncertaintyPercent = cells.Length == 3 ? Number(cells[2]) : 0 }
            : throw new FormatException($"“{line}” is not an aperture in µm, a passing in % and its standard uncertainty in %.");
    }

    private static double Number(string cell) => double.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
        ? number
        : throw new FormatException($"“{cell}” is not a number with a decimal point.");
}

/// <summary>A check of a sieve with a reference material, written once.</summary>
public sealed class ReferenceCheck
{
    public Guid Id { get; init; }
    public Guid SieveId { get; init; }
    public Guid MaterialId { get; init; }
    public required string MaterialLabel { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }

    /// <summary>The masses of each sieving, a line each: empty, loaded, after, in whole micrograms.</summary>
    public required string Sievings { get; init; }

    /// <summary>The mean mass passing, in %.</summary>
    public decimal PassingPercent { get; init; }

    /// <summary>Its standard uncertainty, in %.</summary>
    public decimal PassingUncertaintyPercent { get; init; }

    /// <summary>The effective aperture.</summary>
    public Aperture Effective { get; init; }

    /// <summary>Its standard uncertainty.</summary>
    public Aperture Uncertainty { get; init; }
    public bool Passed { get; init; }

    /// <summary>The verdict in a sentence.</summary>
    public required string Words { get; init; }
}

internal sealed class ReferenceTables : IEntityTypeConfiguration<ReferenceMaterial>, IEntityTypeConfiguration<ReferenceCheck>
{
    public void Configure(EntityTypeBuilder<ReferenceMaterial> builder)
    {
        builder.ToTable("reference_materials").HasIndex(material => new { material.Name, material.Batch }).IsUnique();
        builder.Property(material => material.Name).HasMaxLength(120);
        builder.Property(material => material.Batch).HasMaxLength(60);
        builder.Property(material => material.Certificate).HasMaxLength(120);
        builder.Property(material => material.Points).HasMaxLength(4_000);
        builder.Ignore(material => material.Label).Ignore(material => material.Curve);
    }

    public void Configure(EntityTypeBuilder<ReferenceCheck> builder)
    {
        builder.ToTable("reference_checks").HasIndex(check => new { check.SieveId, check.At });
        builder.Property(check => check.MaterialLabel).HasMaxLength(200);
        builder.Property(check => check.Sievings).HasMaxLength(2_000);
        builder.Property(check => check.Words).HasMaxLength(600);
        builder.HasOne<TestSieve>().WithMany().HasForeignKey(check => check.SieveId);
        builder.HasOne<ReferenceMaterial>().WithMany().HasForeignKey(check => check.MaterialId);
    }
}

/// <summary>Names the tables.</summary>
public static class SieveMeasuringTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All measured apertures.</summary>
        public DbSet<ApertureMeasurement> ApertureMeasurements => data.Set<ApertureMeasurement>();

        /// <summary>All reference materials.</summary>
        public DbSet<ReferenceMaterial> ReferenceMaterials => data.Set<ReferenceMaterial>();

        /// <summary>All checks with a reference material.</summary>
        public DbSet<ReferenceCheck> ReferenceChecks => data.Set<ReferenceCheck>();
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>What a limit speaks of.</summary>
public enum LimitCharacteristic
{
    /// <summary>Percent passing at an aperture.</summary>
    Passing,
    /// <summary>Percent retained on an aperture.</summary>
    Retained,
    /// <summary>A size Dq in µm.</summary>
    Percentile,
    /// <summary>(D90 - D10) / D50.</summary>
    Span,
    /// <summary>The slope n of the Rosin-Rammler line.</summary>
    RosinRammlerSlope,
    /// <summary>The size x' of the Rosin-Rammler line in µm.</summary>
    RosinRammlerSize,
    /// <summary>The specific surface in m²/g, from the classes and the product's true density.</summary>
    SpecificSurface,
}

/// <summary>How a value is held against its limit (ISO/IEC 17025 7.8.6; ILAC-G8:09/2019).</summary>
public enum LimitRule
{
    /// <summary>Simple acceptance: a value on the limit conforms (ILAC-G8 4.2.1).</summary>
    Simple,
    /// <summary>Guarded acceptance: conforms inside the limit by the guard band, else does not (ILAC-G8 4.2.2).</summary>
    Guarded,
    /// <summary>Four states with guard bands on both sides of the limit (ILAC-G8 4.2.3).</summary>
    FourState,
}

/// <summary>How the determinations that make one result are combined. The mean is always shown with the values behind it.</summary>
public enum Combination
{
    /// <summary>The arithmetic mean is judged.</summary>
    Mean,
    /// <summary>The arithmetic mean is judged, and so is each determination: one that does not conform is not averaged away.</summary>
    MeanAndEach,
}

/// <summary>The limits agreed for a product, in general or for one customer; they stand in its versions.</summary>
public sealed class Specification : IControlledDocument
{
    public Guid Id { get; init; }

    /// <summary>For example <c>SP-GC-45-VELDT</c>.</summary>
    public required string Code { get; init; }
    public required string Title { get; init; }
    public Guid ProductId { get; init; }

    /// <summary>Null: for every customer.</summary>
    public Guid? CustomerId { get; init; }
    public List<SpecificationVersion> Versions { get; } = [];
}

/// <summary>One version of a specification.</summary>
public sealed class SpecificationVersion : ControlledVersion
{
    /// <summary>So many determinations make one result; null: as many as the method asks for. A method that asks for more is followed.</summary>
    public int? Determinations { get; init; }

    /// <summary>How the determinations are combined.</summary>
    public Combination Combination { get; init; }

    /// <summary>How the lot is sampled; null where the specification says nothing of it.</summary>
    public SamplingPlan? Sampling { get; init; }
    public List<Limit> Limits { get; } = [];

    /// <summary>So many determinations make one result by a method that asks for so many replicates: the specification may demand more, never fewer.</summary>
    public int DeterminationsBeside(int replicates) => Math.Max(replicates, Determinations ?? 1);
}

/// <summary>One limit.</summary>
public sealed class Limit
{
    public Guid SpecificationVersionId { get; init; }
    public int Position { get; init; }
    public LimitCharacteristic Characteristic { get; init; }

    /// <summary>For passing and retained.</summary>
    public Aperture? Aperture { get; init; }

    /// <summary>For a percentile: percent passing.</summary>
    public decimal? Percent { get; init; }
    public decimal? Lower { get; init; }
    public decimal? Upper { get; init; }

    /// <summary>A value below it conforms and is looked into as off the trend; it lies within the bounds. Null for none.</summary>
    public decimal? LowerAlert { get; init; }

    /// <summary>A value above it conforms and is looked into as off the trend; it lies within the bounds. Null for none.</summary>
    public decimal? UpperAlert { get; init; }

    /// <summary>The most by which the determinations of one result may differ (their range), in the unit of the bounds; null asks nothing beside the method.</summary>
    public decimal? GreatestSpread { get; init; }

    /// <summary>Decimals shown.</summary>
    public int Digits { get; init; }
    public LimitRule Rule { get; init; }

    /// <summary>The guard band as a multiple of the expanded uncertainty; counts for the rules with a guard band only.</summary>
    public decimal GuardFactor { get; init; } = 1m;

    /// <summary>Whether the certificate prints it.</summary>
    public bool Printed { get; init; } = true;

    /// <summary>The unit of the bounds.</summary>
    public string Unit => Characteristic switch
    {
        LimitCharacteristic.Passing or LimitCharacteristic.Retained => "%",
        LimitCharacteristic.Percentile or LimitCharacteristic.RosinRammlerSize => "µm",
        LimitCharacteristic.SpecificSurface => "m²/g",
        _ => "1",
    };

    /// <summary>What it speaks of, for people: "Passing 63 µm", "D50".</summary>
    public string Words => Characteristic switch
    {
        LimitCharacteristic.Passing => $"Passing {Aperture}",
        LimitCharacteristic.Retained => $"Retained on {Aperture}",
        LimitCharacteristic.Percentile => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"D{Percent:0.###}"),
        LimitCharacteristic.Span => "Span",
        LimitCharacteristic.RosinRammlerSlope => "Rosin-Rammler slope n",
        LimitCharacteristic.RosinRammlerSize => "Rosin-Rammler size x′",
        LimitCharacteristic.SpecificSurface => "Specific surface",
        _ => throw new InvalidOperationException("Not a characteristic."),
    };
}

internal sealed class SpecificationTables : IEntityTypeConfiguration<Specification>, IEntityTypeConfiguration<SpecificationVersion>, IEntityTypeConfiguration<Limit>
{
    public void Configure(EntityTypeBuilder<Specification> builder)
    {
        builder.ToTable("specifications").HasIndex(specification => specification.Code).IsUnique();
        builder.Property(specification => specification.Code).HasMaxLength(40);
        builder.HasMany(specification => specification.Versions).WithOne().HasForeignKey(version => version.DocumentId);
        builder.HasOne<Product>().WithMany().HasForeignKey(specification => specification.ProductId);
        builder.HasOne<Customer>().WithMany().HasForeignKey(specification => specification.CustomerId);
    }

    public void Configure(EntityTypeBuilder<SpecificationVersion> builder)
    {
        builder.ToTable("specification_versions").HasIndex(version => new { version.DocumentId, version.Number }).IsUnique();
        builder.HasMany(version => version.Limits).WithOne().HasForeignKey(limit => limit.SpecificationVersionId);
        builder.Property(version => version.Combination).HasDefaultValue(Combination.Mean);
        builder.ComplexProperty(version => version.Sampling, plan =>
        {
            plan.Property(one => one.Increments).HasColumnName("sampling_increments");
            plan.Property(one => one.Procedure).HasColumnName("sampling_procedure").HasMaxLength(SamplingPlan.Longest);
            plan.Property(one => one.LeastMass).HasColumnName("sampling_least_mass");
            plan.Property(one => one.ToRecord).HasColumnName("sampling_to_record").HasMaxLength(SamplingPlan.Longest);
        });
    }

    public void Configure(EntityTypeBuilder<Limit> builder)
    {
        builder.ToTable("limits").HasKey(limit => new { limit.SpecificationVersionId, limit.Position });
        builder.Property(limit => limit.GuardFactor).HasDefaultValue(1m);
        builder.Ignore(limit => limit.Unit).Ignore(limit => limit.Words);
    }
}

/// <summary>Names the tables.</summary>
public static class SpecificationsTables
{
    extension(LaboratoryContext data)
    {
        /// <summary>All specifications.</summary>
        public DbSet<Specification> Specifications => data.Set<Specification>();

        /// <summary>All versions of specifications.</summary>
        public DbSet<SpecificationVersion> SpecificationVersions => data.Set<SpecificationVersion>();
    }
}

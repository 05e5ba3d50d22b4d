using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Products;

/// <summary>What the safety data sheet or the site's assessment says of a powder; cautions on the screen follow from it.</summary>
[Flags]
public enum Hazards
{
    /// <summary>Assessed, and nothing beyond dust in general.</summary>
    None = 0,
    CombustibleDust = 1,
    LowIgnitionEnergy = 2,
    Sensitiser = 4,
    Irritant = 8,
    CrystallineSilica = 16,
    Toxic = 32,
    ReactiveMetal = 64,
    Oxidiser = 128,
}

/// <summary>A product that the mill makes.</summary>
public sealed class Product : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>The short code, for example <c>GC-45</c>.</summary>
    public required string Code { get; init; }
    public required string Name { get; set; }
    public required string Description { get; set; }

    /// <summary>Null while nobody has recorded the hazards: then no sample of it may be opened.</summary>
    public Hazards? Hazards { get; set; }

    /// <summary>A further identification, for example a CAS number; null for none.</summary>
    public string? Identification { get; set; }

    /// <summary>Who makes it and where, if not the laboratory's own works: name and site; null for its own.</summary>
    public string? Manufacturer { get; set; }

    /// <summary>The true density in g/cm³, for the specific surface; null where it is not known.</summary>
    public decimal? TrueDensityGramsPerCubicCentimetre { get; set; }

    /// <summary>The surface of a particle over that of a sphere of the same volume, without unit; null for spheres.</summary>
    public decimal? ShapeFactor { get; set; }
    public long Version { get; set; }
}

internal sealed class ProductTable : IEntityTypeConfiguration<Product>
{
    public void Configure(EntityTypeBuilder<Product> builder)
    {
        builder.ToTable("products").HasIndex(product => product.Code).IsUnique();
        builder.Property(product => product.Code).HasMaxLength(40);
        builder.Property(product => product.Identification).HasMaxLength(ProductCard.LongestIdentification);
        builder.Property(product => product.Manufacturer).HasMaxLength(ProductCard.LongestManufacturer);
    }
}

/// <summary>Names the table.</summary>
public static class ProductsTable
{
    extension(LaboratoryContext data)
    {
        /// <summary>All products.</summary>
        public DbSet<Product> Products => data.Set<Product>();
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Products;

/// <summary>A product as people write it.</summary>
/// <param name="Code">The short code.</param>
/// <param name="Name">The name.</param>
/// <param name="Description">What it is.</param>
/// <param name="Hazards">Null where they are not recorded.</param>
/// <param name="TrueDensityGramsPerCubicCentimetre">Above 0, at most 30 g/cm³; null where it is not known.</param>
/// <param name="ShapeFactor">Above 0, at most 100, without unit; null for spheres.</param>
public sealed record ProductCard(
    string Code, string Name, string Description, Hazards? Hazards, decimal? TrueDensityGramsPerCubicCentimetre = null, decimal? ShapeFactor = null)
{
    /// <summary>The most letters of a further identification.</summary>
    public const int LongestIdentification = 120;

    /// <summary>The most letters of a manufacturer's name and site.</summary>
    public const int LongestManufacturer = 300;

    /// <summary>A further identification, for example a CAS number; null for none.</summary>
    public string? Identification { get; init; }

    /// <summary>Who makes it and where, if not the laboratory's own works; null for its own.</summary>
    public string? Manufacturer { get; init; }

    /// <summary>Refuses, in words, a density or shape that no powder has.</summary>
    /// <exception cref="RefusedException">Says which member and why.</exception>
    internal void Check()
    {
        if (TrueDensityGramsPerCubicCentimetre is not (null or (>= 0.000001m and <= 30m)))
        {
            throw new RefusedException("product-density", "The true density lies above 0 and is at most 30 g/cm³.", "trueDensity");
        }

        if (Identification?.Trim().Length > LongestIdentification)
        {
            throw new RefusedException("product-identification", $"The further identification has at most {LongestIdentification} letters.", "identification");
        }

        if (Manufacturer?.Trim().Length > LongestManufacturer)
        {
            throw new RefusedException("product-manufacturer", $"The manufacturer's name and site have at most {LongestManufacturer} letters.", "manufacturer");
        }

        if (ShapeFactor is not (null or (>= 0.000001m and <= 100m)))
        {
            throw new RefusedException("product-shape", "The shape factor lies above 0 and is at most 100.", "shapeFactor");
        }
    }
}

/// <summary>Keeps the products.</summary>
public sealed class ProductKeeping(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind AddDeed = new("products.add", "Product added", Permission.KeepProducts);
    private static readonly DeedKind ChangeDeed = new("products.change", "Product changed", Permission.KeepProducts, ReasonRequired: true);

    /// <summary>Adds a product.</summary>
    public Task<Guid> AddAsync(Actor actor, ProductCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            var code = card.Code.Trim();
            if (code.Length is 0 or > 40 || string.IsNullOrWhiteSpace(card.Name))
            {
                throw new RefusedException("product-incomplete", "A product has a code of at most 40 characters and a name.", "code");
            }

            card.Check();
            if (await scope.Data.Products.AnyAsync(product => product.Code == code, token))
            {
                throw new RefusedException("product-code-used", $"There is a product {code} already.", "code");
            }

            var added = new Product { Id = scope.NewId(), Code = code, Name = string.Empty, Description = string.Empty };
            Write(added, card);
            scope.Data.Add(added);
            scope.About("Product", added.Id, added.Code);
            return added.Id;
        }, cancellation);

    /// <summary>Changes name, description or hazards; the code stays.</summary>
    public Task<bool> ChangeAsync(Actor actor, Guid id, ProductCard card, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ChangeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var product = await scope.FindAsync<Product>(id, "product", token);
            DeedScope.RequireVersion(product, version, product.Code);
            if (string.IsNullOrWhiteSpace(card.Name))
            {
                throw new RefusedException("product-incomplete", "A product has a name.", "name");
            }

            card.Check();
            Write(product, card);
            scope.About("Product", product.Id, product.Code);
            return true;
        }, cancellation);

    private static void Write(Product product, ProductCard card)
    {
        (product.Name, product.Description, product.Hazards) = (card.Name.Trim(), card.Description.Trim(), card.Hazards);
        (product.Identification, product.Manufacturer) = (card.Identification.OrNothing(), card.Manufacturer.OrNothing());
        (product.TrueDensityGramsPerCubicCentimetre, product.ShapeFactor) = (card.TrueDensityGramsPerCubicCentimetre, card.ShapeFactor);
    }

    /// <summary>All products by code.</summary>
    public Task<List<Product>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Products.OrderBy(product => product.Code).ToListAsync(token), cancellation);
}

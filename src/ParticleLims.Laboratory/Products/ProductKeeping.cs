using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Products;

/// <summary>A product as people write it.</summary>
public sealed record ProductCard(string Code, string Name, string Description, Hazards? Hazards);

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

            if (await scope.Data.Products.AnyAsync(product => product.Code == code, token))
            {
                throw new RefusedException("product-code-used", $"There is a product {code} already.", "code");
            }

            var added = new Product { Id = scope.NewId(), Code = code, Name = card.Name.Trim(), Description = card.Description.Trim(), Hazards = card.Hazards };
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

            (product.Name, product.Description, product.Hazards) = (card.Name.Trim(), card.Description.Trim(), card.Hazards);
            scope.About("Product", product.Id, product.Code);
            return true;
        }, cancellation);

    /// <summary>All products by code.</summary>
    public Task<List<Product>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Products.OrderBy(product => product.Code).ToListAsync(token), cancellation);
}

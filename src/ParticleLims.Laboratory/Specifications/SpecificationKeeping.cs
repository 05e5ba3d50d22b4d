using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>A specification with its product and all its versions, newest first.</summary>
public sealed record SpecificationPage(Specification Specification, Product Product, IReadOnlyList<SpecificationVersion> Versions);

/// <summary>A version that a sample can be booked in for, and how it asks the lot to be sampled.</summary>
public sealed record SpecificationChoice(Guid VersionId, string Code, string Title, int Number, Guid? CustomerId, SamplingPlan? Sampling);

/// <summary>Writes specifications as drafts; their approval is DocumentApproval's.</summary>
public sealed class SpecificationKeeping(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private static readonly DeedKind WriteDeed = new("specifications.write", "Specification written", Permission.WriteDocuments);
    private static readonly DeedKind ReviseDeed = new("specifications.revise", "New version of a specification written", Permission.WriteDocuments);

    /// <summary>Writes a new specification with its first draft; answers the version's key.</summary>
    public Task<Guid> WriteAsync(Actor actor, string code, string title, Guid productId, Guid? customerId, SpecificationDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WriteDeed, actor, key) { Asked = new { code, title, productId, customerId, draft } }, async (scope, token) =>
        {
            var name = code.Trim();
            if (name.Length is 0 or > 40 || string.IsNullOrWhiteSpace(title))
            {
                throw new RefusedException("specification", "A specification has a code of at most 40 characters and a title.", "code");
            }

            if (await scope.Data.Specifications.AnyAsync(specification => specification.Code == name, token))
            {
                throw new RefusedException("specification-code-used", $"There is a specification {name} already. Write a new version of it instead.", "code");
            }

            var product = await scope.FindAsync<Product>(productId, "product", token);
            if (customerId is { } customer)
            {
                await scope.FindAsync<Customer>(customer, "customer", token);
            }

            var specification = new Specification { Id = scope.NewId(), Code = name, Title = title.Trim(), ProductId = product.Id, CustomerId = customerId };
            var version = draft.ToVersion(scope, specification.Id, 1);
            specification.Versions.Add(version);
            scope.Data.Add(specification);
            scope.About("Specification", specification.Id, version.LabelIn(specification));
            return version.Id;
        }, cancellation);

    /// <summary>Writes the next version as a draft; a draft that was never in force gives way to it.</summary>
    public Task<Guid> ReviseAsync(Actor actor, Guid specificationId, SpecificationDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReviseDeed, actor, key) { Asked = new { specificationId, draft } }, async (scope, token) =>
        {
            var specification = await scope.Data.Specifications.Include(specification => specification.Versions).FirstOrDefaultAsync(specification => specification.Id == specificationId, token)
                ?? throw new RefusedException("not-found", "There is no such specification.");
            if (specification.Versions.Any(one => one.State == DocumentState.InApproval))
            {
                throw new RefusedException("specification-in-approval", $"{specification.Code} has a version in approval. Have it approved or handed back first.");
            }

            specification.Versions.Find(one => one.State == DocumentState.Draft)?.GiveWay(specification.Code);
            var version = draft.ToVersion(scope, specification.Id, specification.Versions.Max(one => one.Number) + 1);
            scope.Data.Add(version);
            scope.About("Specification", specification.Id, version.LabelIn(specification));
            return version.Id;
        }, cancellation);

    /// <summary>All specifications with their versions.</summary>
    public Task<List<SpecificationPage>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var products = await data.Products.ToDictionaryAsync(product => product.Id, token);
            var specifications = await data.Specifications.Include(specification => specification.Versions).ThenInclude(version => version.Limits).AsSplitQuery().OrderBy(specification => specification.Code).ToListAsync(token);
            return specifications.ConvertAll(specification => new SpecificationPage(specification, products[specification.ProductId], [.. specification.Versions.OrderByDescending(version => version.Number)]));
        }, cancellation);

    /// <summary>The versions in force for a product.</summary>
    public Task<List<SpecificationChoice>> InForceAsync(Actor actor, Guid productId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            (from specification in data.Specifications
             join version in data.SpecificationVersions.ThoseInForceAt(clock.GetUtcNow()) on specification.Id equals version.DocumentId
             where specification.ProductId == productId
             orderby specification.Code
             select new SpecificationChoice(version.Id, specification.Code, specification.Title, version.Number, specification.CustomerId, version.Sampling)).ToListAsync(token), cancellation);
}

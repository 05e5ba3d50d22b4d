using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Methods;

/// <summary>A method with its product and all its versions, newest first.</summary>
public sealed record MethodPage(Method Method, Product Product, IReadOnlyList<MethodVersion> Versions);

/// <summary>A version that a sample can be booked in for.</summary>
public sealed record MethodChoice(Guid VersionId, string Code, string Title, int Number, SievingProcedure Procedure);

/// <summary>Writes methods as drafts; their approval is DocumentApproval's.</summary>
public sealed class MethodKeeping(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private static readonly DeedKind WriteDeed = new("methods.write", "Method written", Permission.WriteDocuments);
    private static readonly DeedKind ReviseDeed = new("methods.revise", "New version of a method written", Permission.WriteDocuments);

    /// <summary>Writes a new method with its first draft; answers the version's key.</summary>
    public Task<Guid> WriteAsync(Actor actor, string code, string title, Guid productId, MethodDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WriteDeed, actor, key) { Asked = new { code, title, productId, draft } }, async (scope, token) =>
        {
            var name = code.Trim();
            if (name.Length is 0 or > 40 || string.IsNullOrWhiteSpace(title))
            {
                throw new RefusedException("method", "A method has a code of at most 40 characters and a title.", "code");
            }

            if (await scope.Data.Methods.AnyAsync(method => method.Code == name, token))
            {
                throw new RefusedException("method-code-used", $"There is a method {name} already. Write a new version of it instead.", "code");
            }

            var product = await scope.FindAsync<Product>(productId, "product", token);
            var method = new Method { Id = scope.NewId(), Code = name, Title = title.Trim(), ProductId = product.Id };
            var version = draft.ToVersion(scope, method.Id, 1);
            method.Versions.Add(version);
            scope.Data.Add(method);
            scope.About("Method", method.Id, version.LabelIn(method));
            return version.Id;
        }, cancellation);

    /// <summary>Writes the next version as a draft; a draft that was never in force gives way to it.</summary>
    public Task<Guid> ReviseAsync(Actor actor, Guid methodId, MethodDraft draft, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReviseDeed, actor, key) { Asked = new { methodId, draft } }, async (scope, token) =>
        {
            var method = await scope.Data.Methods.Include(method => method.Versions).FirstOrDefaultAsync(method => method.Id == methodId, token)
                ?? throw new RefusedException("not-found", "There is no such method.");
            if (method.Versions.Any(one => one.State == DocumentState.InApproval))
            {
                throw new RefusedException("method-in-approval", $"{method.Code} has a version in approval. Have it approved or handed back first.");
            }

            method.Versions.Find(one => one.State == DocumentState.Draft)?.GiveWay(method.Code);
            var version = draft.ToVersion(scope, method.Id, method.Versions.Max(one => one.Number) + 1);
            scope.Data.Add(version);
            scope.About("Method", method.Id, version.LabelIn(method));
            return version.Id;
        }, cancellation);

    /// <summary>All methods with their versions.</summary>
    public Task<List<MethodPage>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var products = await data.Products.ToDictionaryAsync(product => product.Id, token);
            var methods = await data.Methods.Include(method => method.Versions).ThenInclude(version => version.Sieves).AsSplitQuery().OrderBy(method => method.Code).ToListAsync(token);
            return methods.ConvertAll(method => new MethodPage(method, products[method.ProductId], [.. method.Versions.OrderByDescending(version => version.Number)]));
        }, cancellation);

    /// <summary>The versions in force for a product.</summary>
    public Task<List<MethodChoice>> InForceAsync(Actor actor, Guid productId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            (from method in data.Methods
             join version in data.MethodVersions.ThoseInForceAt(clock.GetUtcNow()) on method.Id equals version.DocumentId
             where method.ProductId == productId
             orderby method.Code
             select new MethodChoice(version.Id, method.Code, method.Title, version.Number, version.Procedure)).ToListAsync(token), cancellation);
}

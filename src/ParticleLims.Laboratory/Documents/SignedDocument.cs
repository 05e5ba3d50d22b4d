using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Documents;

/// <summary>What an approver signs: the whole version of a method or a specification. Only its state moves on afterwards.</summary>
public sealed class SignedDocument<TDocument, TVersion> : ISignedThing
    where TDocument : class, IControlledDocument
    where TVersion : ControlledVersion
{
    internal const string Approved = "approved";

    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind != typeof(TDocument).Name || JsonNode.Parse(signature.Content)?[nameof(SignedVersion.Content)] is not JsonObject signed)
        {
            return null;
        }

        var id = signed[nameof(ControlledVersion.Id)]!.GetValue<Guid>();
        var versions = data.Model.FindEntityType(typeof(TVersion))!.GetNavigations().Aggregate(data.Set<TVersion>().AsNoTracking(), (query, part) => query.Include(part.Name));
        var document = await data.Set<TDocument>().AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        if (document is null || await versions.FirstOrDefaultAsync(one => one.Id == id, cancellation) is not { } version)
        {
            return string.Empty;
        }

        var now = JsonNode.Parse(ContentOf(document, version))!;
        foreach (var moving in (string[])[nameof(ControlledVersion.State), nameof(ControlledVersion.Version)])
        {
            now[nameof(SignedVersion.Content)]![moving] = signed[moving]?.DeepClone();
        }

        return now.ToJsonString();
    }

    /// <summary>Whether a signature is of that version.</summary>
    internal static bool IsOf(Signature signature, Guid versionId) => signature.SubjectKind == typeof(TDocument).Name && signature.Content.Contains(versionId.ToString("D"), StringComparison.Ordinal);

    /// <summary>The canonical content of an approval.</summary>
    internal static string ContentOf(TDocument document, TVersion version) => JsonSerializer.Serialize(new SignedVersion(document.Code, document.Title, version));

    private sealed record SignedVersion(string Code, string Title, TVersion Content);
}

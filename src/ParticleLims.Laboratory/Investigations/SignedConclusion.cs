using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>What a quality manager signs who concludes an investigation: what was out, every note, the conclusion and its reason.</summary>
public sealed class SignedConclusion : ISignedThing
{
    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        return signature.SubjectKind != nameof(Investigation) ? null
            : await data.Investigations.AsNoTracking().Include(one => one.Notes).FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation) is { } found ? ContentOf(found)
            : string.Empty;
    }

    /// <summary>The canonical content of a conclusion.</summary>
    internal static string ContentOf(Investigation one) =>
        JsonSerializer.Serialize(new { one.Number, one.What, conclusion = one.Conclusion.ToString(), reason = one.ConclusionWords, notes = one.Notes.Select(note => note.Words) });
}

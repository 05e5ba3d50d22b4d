using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>What a quality manager signs who has a rejected lot reworked: from which, into which, how much, when and by which procedure.</summary>
public sealed class SignedRework : ISignedThing
{
    internal const string Kind = "Rework";

    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind != Kind)
        {
            return null;
        }

        var made = await data.Lots.AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        var from = made is null ? null : await data.Lots.AsNoTracking().FirstOrDefaultAsync(one => one.Id == made.ReworkedFromId, cancellation);
        return made is null || from is null ? string.Empty : ContentOf(from, made);
    }

    /// <summary>The canonical content of a rework.</summary>
    internal static string ContentOf(Lot from, Lot made) => JsonSerializer.Serialize(new { from = from.Number, to = made.Number, made.QuantityKilograms, made.MadeOn, made.ReworkWords });
}

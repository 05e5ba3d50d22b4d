using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>What a quality manager signs who closes a case of failed equipment: what was wrong, what was decided on every lot, the conclusion.</summary>
public sealed class SignedCase : ISignedThing
{
    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        return signature.SubjectKind != nameof(EquipmentFailure) ? null
            : await data.EquipmentFailures.AsNoTracking().Include(one => one.Lots).FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation) is { } found ? ContentOf(found)
            : string.Empty;
    }

    /// <summary>The canonical content of a closed case.</summary>
    internal static string ContentOf(EquipmentFailure one)
    {
        var lots = string.Join("; ", one.Lots.OrderBy(lot => lot.LotNumber, StringComparer.Ordinal).Select(lot => $"lot {lot.LotNumber}: {lot.Decision.Words()}, {lot.Words}"));
        return $"Case {one.Number}: {one.EquipmentLabel}, {one.What}. {lots}. {one.Conclusion}";
    }
}

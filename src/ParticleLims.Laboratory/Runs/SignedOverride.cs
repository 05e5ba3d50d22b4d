using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What a quality manager signs who allows a run an unfit piece of equipment, or a person without an authorisation.</summary>
public sealed class SignedOverride : ISignedThing
{
    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind == nameof(AuthorisationOverride))
        {
            return (await data.Set<AuthorisationOverride>().AsNoTracking().FirstOrDefaultAsync(one => one.SignatureId == signature.Id, cancellation))?.Words ?? string.Empty;
        }

        if (signature.SubjectKind != nameof(Run) || !signature.Meaning.StartsWith(FitnessOverride.Meaning, StringComparison.Ordinal))
        {
            return null;
        }

        var given = await data.Set<FitnessOverride>().AsNoTracking().FirstOrDefaultAsync(one => one.SignatureId == signature.Id, cancellation);
        var run = await data.Runs.AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        return given is null || run is null ? string.Empty : FitnessOverride.ContentOf(run, given.EquipmentLabel, given.Unfit, given.Reason);
    }
}

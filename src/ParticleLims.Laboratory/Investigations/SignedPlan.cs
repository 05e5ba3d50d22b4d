using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>What a quality manager signs before anything more is measured for an investigation: a hypothesis with how it is judged, or a retest plan with its number.</summary>
public sealed class SignedPlan : ISignedThing
{
    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        return signature.SubjectKind switch
        {
            nameof(Hypothesis) => await data.Set<Hypothesis>().AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation) is { } hypothesis ? ContentOf(hypothesis) : string.Empty,
            nameof(RetestPlan) => await data.Set<RetestPlan>().AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation) is { } plan ? ContentOf(plan) : string.Empty,
            _ => null,
        };
    }

    /// <summary>The canonical content of a hypothesis.</summary>
    internal static string ContentOf(Hypothesis one) => JsonSerializer.Serialize(new { one.What, one.How, one.Judging, one.ProposedByName });

    /// <summary>The canonical content of a retest plan.</summary>
    internal static string ContentOf(RetestPlan one) => JsonSerializer.Serialize(new { one.InvestigationId, one.Count, one.Portion, one.Evaluation, one.SamePersonReason, one.ProposedByName });
}

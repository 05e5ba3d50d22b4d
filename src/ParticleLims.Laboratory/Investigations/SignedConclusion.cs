using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>What a quality manager signs who concludes an investigation: what was out, every note, answer, hypothesis and plan, the conclusion and its reason.</summary>
public sealed class SignedConclusion : ISignedThing
{
    internal const string Concluded = "concluded";

    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        return signature.SubjectKind != nameof(Investigation) || !signature.Meaning.StartsWith(Concluded, StringComparison.Ordinal) ? null
            : await data.Investigations.AsNoTracking().Whole().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation) is { } found ? ContentOf(found)
            : string.Empty;
    }

    /// <summary>The canonical content of a conclusion.</summary>
internal static string ContentOf(Investigation investigation) => JsonSerializer.Serialize(new
    {
        investigation.Number,
        investigation.What,
        conclusion = investigation.Conclusion.ToString(),
        cause = investigation.Cause?.ToString(),
        reason = investigation.ConclusionWords,
        notes = investigation.Notes.Select(note => note.Words),
        answers = investigation.Answers.Select(answer => new { point = answer.Point.ToString(), finding = answer.Finding.ToString(), answer.Words, answer.PersonName }),
        hypotheses = investigation.Hypotheses.Select(one => new { one.What, one.How, one.Judging, outcome = one.Outcome?.ToString(), one.OutcomeWords, measured = one.Measurements.Select(measurement => new { measurement.What, measurement.Value, measurement.Unit }) }),
        retests = investigation.RetestPlans.Select(plan => new { plan.Count, plan.Portion, plan.Evaluation, plan.SamePersonReason, state = plan.State.ToString() }),
        lots = investigation.AssociatedLots.Select(lot => new { lot.LotNumber, lot.Words }),
        investigation.NoOtherLots,
        investigation.CustomersTold,
    });
}

using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Review;

/// <summary>What a reviewer signs: the run's evaluation with its input and every weighing; or the cause for which it counts in nothing.</summary>
public sealed class SignedReview : ISignedThing
{
    internal const string Reviewed = "reviewed";
    internal const string Invalidated = "invalidated";
    internal const string Proposed = "invalidation proposed";

    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind == nameof(Run) && signature.Meaning.StartsWith(Proposed, StringComparison.Ordinal))
        {
            return await data.Reviews.AsNoTracking().FirstOrDefaultAsync(one => one.SignatureId == signature.Id, cancellation) is { Reason: { } cause }
                && await data.Runs.AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation) is { } proposed ? ProposalOf(proposed, cause) : string.Empty;
        }

        var isReview = signature.Meaning.StartsWith(Reviewed, StringComparison.Ordinal);
        if (signature.SubjectKind != nameof(Run) || !(isReview || signature.Meaning.StartsWith(Invalidated, StringComparison.Ordinal)))
        {
            return null;
        }

        var run = await data.Runs.AsNoTracking().Include(one => one.Weighings).FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        if (run is null || !isReview)
        {
            return run is null ? string.Empty : CauseOf(run);
        }

        return await data.Evaluations.AsNoTracking().FirstOrDefaultAsync(one => one.Id == run.EvaluationId, cancellation) is { } evaluation ? ContentOf(run, evaluation) : string.Empty;
    }

    /// <summary>The canonical content of a review.</summary>
    internal static string ContentOf(Run run, Evaluation evaluation) => JsonSerializer.Serialize(new
    {
        run.Number, run.SampleCode, run.LotNumber, evaluation.Input, evaluation.Result,
        weighings = run.Weighings.OrderBy(weighing => weighing.At).ThenBy(weighing => weighing.Id).Select(weighing => new { weighing.Id, weighing.RawLine, micrograms = weighing.Mass.Micrograms, weighing.PersonName, weighing.SupersedesId }),
    });

    /// <summary>The canonical content of a proposed invalidation.</summary>
    internal static string ProposalOf(Run run, string cause) => JsonSerializer.Serialize(new { run.Number, cause });

    /// <summary>The canonical content of an invalidation.</summary>
    internal static string CauseOf(Run run) => JsonSerializer.Serialize(new { run.Number, cause = run.StateReason });
}

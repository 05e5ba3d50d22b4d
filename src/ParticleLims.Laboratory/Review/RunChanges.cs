using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;

namespace ParticleLims.Laboratory.Review;

/// <summary>What was out of the ordinary with a run. Whoever accepts it has opened this before, and the record says when.</summary>
public sealed class RunChanges(WritePath writing)
{
    // Not of the family of reviews: having looked is not having reviewed.
    private static readonly DeedKind OpenDeed = new("changes.open", "Changes of a run looked at", Permission.ReviewRuns);

    /// <summary>The events of the run that were more than its usual steps, oldest first: weighed again, keyed, returned, allowed by signature, given up; and what was corrected of its sample and its lot.</summary>
    public Task<List<RecordEvent>> OpenAsync(Actor actor, Guid runId, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(OpenDeed, actor), async (scope, token) =>
        {
            var run = await scope.FindAsync<Run>(runId, "run", token);
            scope.About("Run", run.Id, run.Label);
            var ofRun = await scope.Data.Events.AsNoTracking().Where(one => one.SubjectId == runId && (one.Reason != null || one.Code.StartsWith(ReviewsTable.DeedFamily) || one.Code.StartsWith("invalidations.") || one.Code.StartsWith("runs.key"))).ToListAsync(token);
            return ofRun.Concat(await CorrectionReading.OfAsync(scope.Data.Events.AsNoTracking(), [run.LotId, run.SampleId], token)).OrderBy(one => one.Sequence).ToList();
        }, cancellation);

    /// <summary>Refuses whoever has not opened the changes since the run was submitted.</summary>
    internal static async Task RequireOpenedAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var person = scope.PersonId;
        if (!await scope.Data.Events.AnyAsync(one => one.SubjectId == run.Id && one.PersonId == person && one.Code == OpenDeed.Code && one.At >= run.SubmittedAt, cancellation))
        {
            throw new RefusedException("changes-unopened", $"Open what changed in run {run.Number} before you sign: what was weighed again, keyed or allowed is part of the review.");
        }
    }
}

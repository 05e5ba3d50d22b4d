using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Samples;

/// <summary>What was corrected of a lot and of its samples after they were booked in: whoever reviews or decides sees it.</summary>
public sealed class CorrectionReading(ReadPath reading)
{
    /// <summary>The events of the corrections, oldest first.</summary>
    public Task<List<RecordEvent>> OfLotAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var samples = await data.Samples.Where(sample => sample.LotId == lotId).Select(sample => sample.Id).ToListAsync(token);
            return await OfAsync(data.Events.AsNoTracking(), [lotId, .. samples], token);
        }, cancellation);

    /// <summary>The events that corrected any of these lots and samples, oldest first.</summary>
    internal static Task<List<RecordEvent>> OfAsync(IQueryable<RecordEvent> events, List<Guid> things, CancellationToken cancellation) =>
        events.Where(one => things.Contains(one.SubjectId) && (one.Code.StartsWith(LotCorrection.DeedFamily) || one.Code.StartsWith(SampleCorrection.DeedFamily))).OrderBy(one => one.Sequence).ToListAsync(cancellation);
}

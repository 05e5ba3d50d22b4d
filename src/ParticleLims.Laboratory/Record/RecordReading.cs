using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>What is looked for in the record; null members ask nothing.</summary>
/// <param name="SubjectId">Everything about one thing.</param>
/// <param name="WordPart">A part of the subject's label, the person's name or the deed's code.</param>
/// <param name="From">From this instant on.</param>
/// <param name="To">Up to this instant.</param>
/// <param name="Before">Only events before this number: for reading on without gaps while new ones come in.</param>
/// <param name="WithBelongings">Also everything about what belongs to that thing: of a lot its samples, runs, investigations, certificates.</param>
/// <param name="WithNames">Also what the things are called whose keys stand in the values, for a reader.</param>
public sealed record RecordQuestion(
    Guid? SubjectId = null, string? WordPart = null, DateTimeOffset? From = null, DateTimeOffset? To = null, long? Before = null, bool WithBelongings = false, bool WithNames = false);

/// <summary>One page of events and how many there are in all.</summary>
/// <param name="Events">The events, newest first.</param>
/// <param name="Total">How many the question finds.</param>
/// <param name="Subject">What the asked thing is called in its last event; null where nothing is asked for or known.</param>
/// <param name="Names">What the things are called whose keys stand in the values; empty unless asked for.</param>
public sealed record RecordPage(IReadOnlyList<RecordEvent> Events, int Total, string? Subject, IReadOnlyDictionary<Guid, string> Names);

/// <summary>Reads and checks the record.</summary>
public sealed class RecordReading(ReadPath reading, RecordInspection inspection, IEnumerable<IBelongings> belongings)
{
    // A lot has samples, they have runs: deeper it does not go, and a ring would end here.
    private const int Deepest = 4;
    private const int MostNames = 1_000;

    /// <summary>One page, newest first.</summary>
    public Task<RecordPage> FindAsync(Actor actor, RecordQuestion question, int skip, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.ReadRecord, async (data, _, token) =>
        {
            var events = await AskedAsync(data, question, token);
            var last = question.SubjectId is { } id ? await data.Events.Where(one => one.SubjectId == id).OrderByDescending(one => one.Sequence).Select(one => new { one.SubjectKind, one.SubjectLabel }).FirstOrDefaultAsync(token) : null;
            var page = await events.OrderByDescending(one => one.Sequence).Skip(skip).Take(Math.Clamp(take, 1, 500)).ToListAsync(token);
            return new RecordPage(
                page, await events.CountAsync(token), last is null ? null : Called(last.SubjectKind, last.SubjectLabel), question.WithNames ? await NamesInAsync(data, page, token) : new Dictionary<Guid, string>());
        }, cancellation);

    /// <summary>Recomputes the whole chain and compares every row of every table with it.</summary>
    public async Task<RecordInspected> InspectAsync(Actor actor, CancellationToken cancellation)
    {
        (await reading.StandingOfAsync(actor, cancellation)).Require(Permission.ReadRecord);
        return await inspection.InspectAsync(null, cancellation);
    }

    private static string Called(string kind, string label) => kind == "Person" ? label : $"{RecordDifference.Words(kind).ToLowerInvariant()} {label}";

    // The record itself knows what things are called: by the last event about each. An import adds thousands of keys in one deed; the first ones are named.
    private static async Task<IReadOnlyDictionary<Guid, string>> NamesInAsync(LaboratoryContext data, List<RecordEvent> page, CancellationToken cancellation)
    {
        var keys = page.SelectMany(RecordDifference.KeysIn).Distinct().Take(MostNames).ToList();
        var found = await data.Events.Where(one => keys.Contains(one.SubjectId)).GroupBy(one => new { one.SubjectId, one.SubjectKind, one.SubjectLabel })
            .Select(same => new { same.Key.SubjectId, same.Key.SubjectKind, same.Key.SubjectLabel, Last = same.Max(one => one.Sequence) }).ToListAsync(cancellation);
        return found.GroupBy(one => one.SubjectId).Select(same => same.MaxBy(one => one.Last)!).ToDictionary(one => one.SubjectId, one => Called(one.SubjectKind, one.SubjectLabel));
    }

    private async Task<IQueryable<RecordEvent>> AskedAsync(LaboratoryContext data, RecordQuestion question, CancellationToken cancellation)
    {
        var events = data.Events.AsQueryable();
        if (question.SubjectId is { } subject)
        {
            var things = question.WithBelongings ? await WithBelongingsAsync(data, subject, cancellation) : [subject];
            events = events.Where(one => things.Contains(one.SubjectId));
        }

        events = question.From is { } from ? events.Where(one => one.At >= from) : events;
        events = question.To is { } to ? events.Where(one => one.At <= to) : events;
        events = question.Before is { } before ? events.Where(one => one.Sequence < before) : events;
        if (string.IsNullOrWhiteSpace(question.WordPart))
        {
            return events;
        }

        var part = question.WordPart.Trim().ToUpperInvariant();
        return events.Where(one => one.SearchText.Contains(part));
    }

    private async Task<List<Guid>> WithBelongingsAsync(LaboratoryContext data, Guid subject, CancellationToken cancellation)
    {
        var (all, last) = (new HashSet<Guid> { subject }, new List<Guid> { subject });
        for (var depth = 0; depth < Deepest && last.Count > 0; depth++)
        {
            var next = new List<Guid>();
            foreach (var one in belongings)
            {
                next.AddRange((await one.OfAsync(data, last, cancellation)).Where(all.Add));
            }

            last = next;
        }

        return [.. all];
    }
}

using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Record;

/// <summary>What is looked for in the record; null members ask nothing.</summary>
/// <param name="SubjectId">Everything about one thing.</param>
/// <param name="WordPart">A part of the subject's label, the person's name or the deed's code.</param>
/// <param name="From">From this instant on.</param>
/// <param name="To">Up to this instant.</param>
/// <param name="Before">Only events before this number: for reading on without gaps while new ones come in.</param>
public sealed record RecordQuestion(Guid? SubjectId = null, string? WordPart = null, DateTimeOffset? From = null, DateTimeOffset? To = null, long? Before = null);

/// <summary>One page of events and how many there are in all.</summary>
public sealed record RecordPage(IReadOnlyList<RecordEvent> Events, int Total);

/// <summary>Reads and checks the record.</summary>
public sealed class RecordReading(ReadPath reading)
{
    /// <summary>One page, newest first.</summary>
    public Task<RecordPage> FindAsync(Actor actor, RecordQuestion question, int skip, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.ReadRecord, async (data, _, token) =>
        {
            var events = data.Events.AsQueryable();
            events = question.SubjectId is { } subject ? events.Where(one => one.SubjectId == subject) : events;
            events = question.From is { } from ? events.Where(one => one.At >= from) : events;
            events = question.To is { } to ? events.Where(one => one.At <= to) : events;
            events = question.Before is { } before ? events.Where(one => one.Sequence < before) : events;
            if (!string.IsNullOrWhiteSpace(question.WordPart))
            {
                var part = question.WordPart.Trim().ToUpperInvariant();
                events = events.Where(one => one.SearchText.Contains(part));
            }

            return new RecordPage(await events.OrderByDescending(one => one.Sequence).Skip(skip).Take(Math.Clamp(take, 1, 500)).ToListAsync(token), await events.CountAsync(token));
        }, cancellation);

    /// <summary>Recomputes the whole chain.</summary>
    public Task<RecordVerification> VerifyAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.ReadRecord, (data, _, token) => RecordVerifier.VerifyAsync(data, null, token), cancellation);
}

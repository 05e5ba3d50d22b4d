using System.Globalization;

namespace ParticleLims.Laboratory.Record;

/// <summary>Takes the events of a record one after another and says at which one it stops holding together.</summary>
/// <param name="outsideHead">The number and hash of an event that were kept outside; null for none.</param>
public sealed class ChainCheck((long Sequence, string Hash)? outsideHead)
{
    private long expected = 1;
    private string head = RecordChain.Origin;
    private bool outsideSeen = outsideHead is null;
    private string? fault;

    /// <summary>Takes the next event in the order of their numbers; answers false once something is wrong.</summary>
    public bool Take(RecordEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return Take(one, RecordChain.HashOf(one));
    }

    /// <summary>What was found after the last event was taken.</summary>
    public RecordVerification Close() => new(
        expected - 1, head, fault ?? (outsideSeen ? null : Say($"The record ends at event {expected - 1}, but event {outsideHead!.Value.Sequence} was seen outside: its end was cut off.")));

    /// <summary>The next event holds something that no event can hold.</summary>
    internal void Stop(string what) => fault ??= Say($"Event {expected} cannot be read, so it was changed after it was written: {what}");

    /// <summary>The same, when its hash was computed already.</summary>
    internal bool Take(RecordEvent one, string hash)
    {
        fault ??= FaultOf(one, hash);
        if (fault is not null)
        {
            return false;
        }

        (expected, head) = (expected + 1, one.Hash);
        if (outsideHead is { } outside && outside.Sequence == one.Sequence)
        {
            outsideSeen = true;
            fault = outside.Hash == one.Hash ? null : Say($"Event {one.Sequence} is not the one whose hash was kept outside: the record was rewritten up to there.");
        }

        return fault is null;
    }

    private string? FaultOf(RecordEvent one, string hash)
    {
        if (one.Sequence != expected)
        {
            return Say($"Event {expected} is missing: the next one is {one.Sequence}.");
        }

        if (one.PreviousHash != head)
        {
            return Say($"Event {one.Sequence} does not follow the event before it.");
        }

        if (one.SearchText != RecordEvent.SearchTextOf(one.SubjectLabel, one.PersonName, one.Code))
        {
            return Say($"Event {one.Sequence} ({one.Code}, {one.SubjectLabel}) was hidden from the search.");
        }

        return one.Hash == hash ? null : Say($"Event {one.Sequence} ({one.Code}, {one.SubjectLabel}) was changed after it was written.");
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}

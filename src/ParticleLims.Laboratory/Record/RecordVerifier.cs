using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>What the verifier found.</summary>
/// <param name="Events">How many events were read.</param>
/// <param name="HeadHash">The hash of the last one.</param>
/// <param name="Fault">Null when the chain holds; else what is wrong and where.</param>
public sealed record RecordVerification(long Events, string HeadHash, string? Fault);

/// <summary>Reads the whole record and recomputes its chain.</summary>
public static class RecordVerifier
{
    /// <summary>Finds the first event that was edited, deleted, inserted or swapped; an outside head also tells that the end was cut off.</summary>
    public static async Task<RecordVerification> VerifyAsync(LaboratoryContext data, (long Sequence, string Hash)? outsideHead, CancellationToken cancellation)
    {
        var (expected, head) = (1L, RecordChain.Origin);
        var outsideSeen = outsideHead is null;
        await foreach (var one in data.Events.AsNoTracking().OrderBy(one => one.Sequence).AsAsyncEnumerable().WithCancellation(cancellation))
        {
            if (FaultOf(one, expected, head) is { } fault)
            {
                return new RecordVerification(expected - 1, head, fault);
            }

            if (outsideHead is { } outside && outside.Sequence == one.Sequence)
            {
                outsideSeen = true;
                if (outside.Hash != one.Hash)
                {
                    return new RecordVerification(expected, one.Hash, Say($"Event {one.Sequence} is not the one whose hash was kept outside: the record was rewritten up to there."));
                }
            }

            (expected, head) = (expected + 1, one.Hash);
        }

        return new RecordVerification(expected - 1, head, outsideSeen ? null : Say($"The record ends at event {expected - 1}, but event {outsideHead!.Value.Sequence} was seen outside: its end was cut off."));
    }

    private static string? FaultOf(RecordEvent one, long expected, string head)
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

        return one.Hash == RecordChain.HashOf(one) ? null : Say($"Event {one.Sequence} ({one.Code}, {one.SubjectLabel}) was changed after it was written.");
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}

using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>What the verifier found.</summary>
/// <param name="Events">How many events were read and hold.</param>
/// <param name="HeadHash">The hash of the last one.</param>
/// <param name="Fault">Null when the chain holds; else what is wrong and where.</param>
public sealed record RecordVerification(long Events, string HeadHash, string? Fault);

/// <summary>Reads the whole record and recomputes its chain.</summary>
public static class RecordVerifier
{
    private const int AtOnce = 2_048;

    /// <summary>Finds the first event that was edited, deleted, inserted or swapped; an outside head also tells that the end was cut off.</summary>
    public static Task<RecordVerification> VerifyAsync(LaboratoryContext data, (long Sequence, string Hash)? outsideHead, CancellationToken cancellation) =>
        Task.Run(() => Verify(data, outsideHead, cancellation), cancellation);

    /// <summary>The same over events that are at hand already, in their order.</summary>
    public static RecordVerification Verify(IReadOnlyList<RecordEvent> events, (long Sequence, string Hash)? outsideHead)
    {
        var check = new ChainCheck(outsideHead);
        TakeAll(check, events);
        return check.Close();
    }

    // The next page is read while the earlier one is hashed.
    private static RecordVerification Verify(LaboratoryContext data, (long Sequence, string Hash)? outsideHead, CancellationToken cancellation)
    {
        var check = new ChainCheck(outsideHead);
        using var rows = new RecordRows(data);
        var earlier = Task.FromResult(true);
        while (rows.Next(AtOnce) is { Count: > 0 } page && earlier.GetAwaiter().GetResult())
        {
            cancellation.ThrowIfCancellationRequested();
            earlier = Task.Run(() => TakeAll(check, page), cancellation);
        }

        earlier.GetAwaiter().GetResult();
        if (rows.Unreadable is { } what)
        {
            check.Stop(what);
        }

        return check.Close();
    }

    private static bool TakeAll(ChainCheck check, IReadOnlyList<RecordEvent> events)
    {
        foreach (var one in events)
        {
            if (!check.Take(one))
            {
                return false;
            }
        }

        return true;
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>The record and the tables, checked in one state of the database.</summary>
/// <param name="Chain">Whether the chain holds.</param>
/// <param name="Rows">The tables beside the record; null where the chain does not hold, for then it tells nothing about them.</param>
public sealed record RecordInspected(RecordVerification Chain, RowVerification? Rows);

/// <summary>
/// Checks the whole record for whoever has the database in hand already, at the console: it asks for no permission, writes nothing, and may run beside the program.
/// </summary>
public sealed class RecordInspection(IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine)
{
    /// <summary>Recomputes the chain and compares every row with it.</summary>
    /// <param name="outsideHead">The number and hash of an event that were kept outside; null for none.</param>
    /// <param name="cancellation">Ends the checking.</param>
    /// <exception cref="RefusedException">The database is older than this program.</exception>
    public async Task<RecordInspected> InspectAsync((long Sequence, string Hash)? outsideHead, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        if ((await data.Database.GetPendingMigrationsAsync(cancellation)).Any())
        {
            throw new RefusedException("database-older", "The database is older than this program. Check it with the program that wrote it, or start this one on it first.");
        }

        await using var reading = await engine.BeginReadingAsync(data, cancellation);
        var chain = await RecordVerifier.VerifyAsync(data, outsideHead, cancellation);
        return new RecordInspected(chain, chain.Fault is null ? await RowVerifier.VerifyAsync(data, cancellation) : null);
    }
}

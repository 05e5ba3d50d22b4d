using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Storage;

/// <summary>Finds a row by its key, first among those that the context has already, by a query that is translated once for each kind of row.</summary>
internal static class RowById<T>
    where T : class
{
    private static readonly CompiledQuery<Guid, T?> Query = new((data, id) => data.Set<T>().AsTracking().FirstOrDefault(row => EF.Property<Guid>(row, "Id") == id));

    /// <summary>The row, tracked; null where there is none.</summary>
    public static Task<T?> AskAsync(LaboratoryContext data, Guid id, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        return data.Set<T>().Local.FindEntry(id)?.Entity is { } known ? Task.FromResult<T?>(known) : Query.AskAsync(data, id);
    }
}

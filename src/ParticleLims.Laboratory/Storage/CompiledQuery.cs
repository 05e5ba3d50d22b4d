using System.Collections.Concurrent;
using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace ParticleLims.Laboratory.Storage;

/// <summary>
/// A query that nearly every deed asks, translated once for each database. It says itself whether its rows are tracked: what the context
/// says is looked at only when it is translated.
/// </summary>
internal sealed class CompiledQuery<TKey, T>(Expression<Func<LaboratoryContext, TKey, T>> query)
{
    private readonly ConcurrentDictionary<IModel, Func<LaboratoryContext, TKey, Task<T>>> translated = new();

    /// <summary>Asks it.</summary>
    public Task<T> AskAsync(LaboratoryContext data, TKey key) => translated.GetOrAdd(data.Model, _ => EF.CompileAsyncQuery(query))(data, key);
}

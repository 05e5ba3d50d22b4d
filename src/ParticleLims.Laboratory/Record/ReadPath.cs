using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>The one way in which anything is read: who asks is checked first, and the rows are not tracked.</summary>
public sealed class ReadPath(IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine, IAuthority authority)
{
    /// <summary>Reads when the actor holds the permission.</summary>
    /// <exception cref="NotPermittedException">The permission is not held.</exception>
    /// <exception cref="DatabaseTroubledException">The database does not work.</exception>
    public Task<T> ReadAsync<T>(Actor actor, Permission needs, Func<LaboratoryContext, Standing, CancellationToken, Task<T>> read, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(read);
        return InContextAsync(async data =>
        {
            var by = await authority.StandingOfAsync(data, actor, cancellation);
            by.Require(needs);
            return await read(data, by, cancellation);
        }, cancellation);
    }

    /// <summary>What the actor may do now, for showing or hiding; every deed and every reading checks again.</summary>
    /// <exception cref="DatabaseTroubledException">The database does not work.</exception>
    public Task<Standing> StandingOfAsync(Actor actor, CancellationToken cancellation) => InContextAsync(data => authority.StandingOfAsync(data, actor, cancellation), cancellation);

    /// <summary>Reads what anybody may read, such as the public check of a certificate.</summary>
    /// <exception cref="DatabaseTroubledException">The database does not work.</exception>
    public Task<T> ReadOpenlyAsync<T>(Func<LaboratoryContext, CancellationToken, Task<T>> read, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(read);
        return InContextAsync(data => read(data, cancellation), cancellation);
    }

    private async Task<T> InContextAsync<T>(Func<LaboratoryContext, Task<T>> read, CancellationToken cancellation)
    {
        try
        {
            await using var data = await contexts.CreateDbContextAsync(cancellation);
            data.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
            return await read(data);
        }
        catch (Exception fault) when (engine.TroubleOf(fault) is { } trouble)
        {
            throw new DatabaseTroubledException(trouble, fault);
        }
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>The one way in which anything is read: who asks is checked first, and the rows are not tracked.</summary>
public sealed class ReadPath(IDbContextFactory<LaboratoryContext> contexts, IAuthority authority)
{
    /// <summary>Reads when the actor holds the permission.</summary>
    /// <exception cref="NotPermittedException">The permission is not held.</exception>
    public async Task<T> ReadAsync<T>(Actor actor, Permission needs, Func<LaboratoryContext, Standing, CancellationToken, Task<T>> read, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(read);
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        data.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        var by = await authority.StandingOfAsync(data, actor, cancellation);
        by.Require(needs);
        return await read(data, by, cancellation);
    }

    /// <summary>What the actor may do now, for showing or hiding; every deed and every reading checks again.</summary>
    public async Task<Standing> StandingOfAsync(Actor actor, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await authority.StandingOfAsync(data, actor, cancellation);
    }

    /// <summary>Reads what anybody may read, such as the public check of a certificate.</summary>
    public async Task<T> ReadOpenlyAsync<T>(Func<LaboratoryContext, CancellationToken, Task<T>> read, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(read);
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        data.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        return await read(data, cancellation);
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>
/// Lets many deeds share one transaction of the database: the whole history is there in the end, or nothing of it. A killed program leaves
/// no half laboratory, and the disk is waited for once and not once a deed, without any setting being loosened.
/// </summary>
internal sealed class OneTransaction : IDbContextFactory<LaboratoryContext>, IDatabaseEngine, IAsyncDisposable
{
    private readonly IDbContextFactory<LaboratoryContext> contexts;
    private readonly IDatabaseEngine engine;
    private readonly LaboratoryContext owner;
    private readonly IDbContextTransaction transaction;
    private bool broken;

    private OneTransaction(IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine, LaboratoryContext owner, IDbContextTransaction transaction)
    {
        this.contexts = contexts;
        this.engine = engine;
        this.owner = owner;
        this.transaction = transaction;
    }

    /// <inheritdoc />
    public string Name => engine.Name;

    /// <summary>Begins it; nobody else writes until it ends.</summary>
    public static async Task<OneTransaction> BeginAsync(IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine, CancellationToken cancellation)
    {
        var first = await contexts.CreateDbContextAsync(cancellation);
        try
        {
            return new OneTransaction(contexts, engine, first, await engine.BeginWritingAsync(first, cancellation));
        }
        catch
        {
            await first.DisposeAsync();
            throw;
        }
    }

    /// <summary>Keeps everything.</summary>
    /// <exception cref="InvalidOperationException">A deed failed; nothing is kept.</exception>
    public Task KeepAsync(CancellationToken cancellation) =>
        broken ? throw new InvalidOperationException("A deed failed, so none of them is kept.") : transaction.CommitAsync(cancellation);

    /// <inheritdoc />
    public LaboratoryContext CreateDbContext()
    {
        var data = contexts.CreateDbContext();
        data.Database.SetDbConnection(owner.Database.GetDbConnection());
        data.Database.UseTransaction(transaction.GetDbTransaction());
        return data;
    }

    /// <inheritdoc />
    public Task<IDbContextTransaction> BeginWritingAsync(LaboratoryContext data, CancellationToken cancellation) =>
        Task.FromResult<IDbContextTransaction>(new Part(this));

    /// <inheritdoc />
    public Task<IDbContextTransaction> BeginReadingAsync(LaboratoryContext data, CancellationToken cancellation) => throw Closed();

    /// <inheritdoc />
    public DatabaseTrouble? TroubleOf(Exception fault) => engine.TroubleOf(fault);

    /// <inheritdoc />
    public Task CheckSettingsAsync(LaboratoryContext data, CancellationToken cancellation) => engine.CheckSettingsAsync(data, cancellation);

    /// <inheritdoc />
    public Task<string> BackUpAsync(LaboratoryContext data, string folder, DateTimeOffset at, CancellationToken cancellation) => throw Closed();

    /// <inheritdoc />
    public Task<IAsyncDisposable> LockForMigrationAsync(LaboratoryContext data, CancellationToken cancellation) => throw Closed();

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await transaction.DisposeAsync();
        await owner.DisposeAsync();
    }

    private static InvalidOperationException Closed() => new("Within one transaction the database is neither backed up nor migrated.");

    /// <summary>One deed's share: it cannot be undone alone, so a deed that fails breaks the whole.</summary>
    private sealed class Part(OneTransaction whole) : IDbContextTransaction
    {
        private bool done;

        public Guid TransactionId => whole.transaction.TransactionId;

        public void Commit() => done = true;

        public Task CommitAsync(CancellationToken cancellationToken = default)
        {
            Commit();
            return Task.CompletedTask;
        }

        public void Rollback() => whole.broken = true;

        public Task RollbackAsync(CancellationToken cancellationToken = default)
        {
            Rollback();
            return Task.CompletedTask;
        }

        public void Dispose() => whole.broken |= !done;

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}

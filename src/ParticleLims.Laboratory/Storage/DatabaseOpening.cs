using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Storage;

/// <summary>Opens the database when the program starts: checks its settings, backs it up, brings it to this program's shape.</summary>
public sealed class DatabaseOpening(IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine, WritePath writing, TimeProvider clock)
{
    private static readonly DeedKind MigrateDeed = new("storage.migrate", "Database brought to this version", Permission.ActAsProgram);
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(10);

    /// <summary>Opens, migrating only after a verified backup.</summary>
    /// <exception cref="InvalidOperationException">In words: the settings are unsafe, the backup failed, or the database is newer than this program.</exception>
    public async Task OpenAsync(string backupFolder, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(Longest);
        await using (var data = await contexts.CreateDbContextAsync(cancellation))
        {
            await engine.CheckSettingsAsync(data, cancellation);
        }

        var migrated = await MigrateAsync(backupFolder, limit.Token);
        if (migrated.Count > 0)
        {
            await writing.CarryOutAsync(new Deed(MigrateDeed, Actor.Program, Reason: string.Join(", ", migrated)), (scope, _) =>
            {
                scope.About("Database", Guid.Empty, engine.Name);
                return Task.FromResult(true);
            }, cancellation);
        }
    }

    private async Task<IReadOnlyList<string>> MigrateAsync(string backupFolder, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        await using var held = await engine.LockForMigrationAsync(data, cancellation);
        var applied = (await data.Database.GetAppliedMigrationsAsync(cancellation)).ToList();
        if (applied.Except(data.Database.GetMigrations()).ToList() is { Count: > 0 } unknown)
        {
            throw new InvalidOperationException($"This database was written by a newer version of the program ({string.Join(", ", unknown)}). Start that version, or restore an older backup.");
        }

        var pending = (await data.Database.GetPendingMigrationsAsync(cancellation)).ToList();
        if (pending.Count == 0)
        {
            return pending;
        }

        if (applied.Count > 0)
        {
            await engine.BackUpAsync(data, backupFolder, clock.GetUtcNow(), cancellation);
        }

        await data.Database.MigrateAsync(cancellation);
        return pending;
    }
}

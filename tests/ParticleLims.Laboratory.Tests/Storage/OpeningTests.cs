using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.Storage;

/// <summary>How the program opens a database that is old, new, or in use.</summary>
public sealed class OpeningTests
{
    [Theory]
    [EachDatabase]
    public async Task A_database_of_a_newer_program_is_refused_and_left_alone(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        await using var data = laboratory.Data();
        await data.Database.ExecuteSqlRawAsync("""INSERT INTO "__EFMigrationsHistory" VALUES ('29990101000000_FromTheFuture', '99.0.0')""");
        var events = await data.Events.CountAsync();
        var fault = await Should.ThrowAsync<InvalidOperationException>(() => laboratory.Get<DatabaseOpening>().OpenAsync(laboratory.Database.BackupFolder, default));
        fault.Message.ShouldContain("newer version");
        fault.Message.ShouldContain("FromTheFuture");
        (await data.Events.CountAsync()).ShouldBe(events);
    }

    [Theory]
    [EachDatabase]
    public async Task An_older_database_is_backed_up_before_it_is_migrated(DatabaseKind kind)
    {
        var database = await TestDatabase.CreateAsync(kind);
        var first = await MigrateToFirstAsync(database);
        await using var laboratory = await RunningLaboratory.OpenAsync(database, RunningLaboratory.FirstMorning);
        Directory.GetFiles(database.BackupFolder).ShouldHaveSingleItem();
        await using var data = laboratory.Data();
        var migrated = (await data.Events.ToListAsync()).ShouldHaveSingleItem();
        migrated.Code.ShouldBe("storage.migrate");
        migrated.Reason.ShouldBe(string.Join(", ", data.Database.GetMigrations().Where(migration => migration != first)));
    }

    [Theory]
    [EachDatabase]
    public async Task Opening_a_second_time_changes_nothing(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        await laboratory.Get<DatabaseOpening>().OpenAsync(laboratory.Database.BackupFolder, default);
        await using var data = laboratory.Data();
        (await data.Events.Select(one => one.Code).ToListAsync()).ShouldBe(["storage.migrate"]);
        Directory.Exists(laboratory.Database.BackupFolder).ShouldBeFalse("no backup was due");
    }

    [Theory]
    [EachDatabase]
    public async Task Two_programs_never_migrate_at_once(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        await using var data = laboratory.Data();
        var engine = laboratory.Get<IDatabaseEngine>();
        await using (await engine.LockForMigrationAsync(data, default))
        {
            var fault = await Should.ThrowAsync<InvalidOperationException>(() => laboratory.Get<DatabaseOpening>().OpenAsync(laboratory.Database.BackupFolder, default));
            fault.Message.ShouldContain("Another program is migrating");
        }

        await laboratory.Get<DatabaseOpening>().OpenAsync(laboratory.Database.BackupFolder, default);
    }

    private static async Task<string> MigrateToFirstAsync(TestDatabase database)
    {
        var services = new ServiceCollection();
        database.AddTo(services);
        await using var provider = services.BuildServiceProvider();
        await using var data = await provider.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        var first = data.Database.GetMigrations().First();
        await data.GetService<IMigrator>().MigrateAsync(first);
        await database.LetGoAsync();
        return first;
    }
}

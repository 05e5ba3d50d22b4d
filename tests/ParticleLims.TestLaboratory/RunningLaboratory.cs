using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Storage;
using ParticleLims.TestLaboratory.Databases;

namespace ParticleLims.TestLaboratory;

/// <summary>A laboratory with its own database, opened as the program opens it, and a clock that the test sets.</summary>
public sealed class RunningLaboratory : IAsyncDisposable
{
    /// <summary>When the clock of every laboratory starts: a Monday.</summary>
    public static readonly DateTimeOffset FirstMorning = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    private static readonly Dictionary<DatabaseKind, Lazy<Task<TestDatabase>>> Migrated = Enum.GetValues<DatabaseKind>()
        .ToDictionary(kind => kind, kind => new Lazy<Task<TestDatabase>>(() => MigrateAsync(kind)));

    private readonly ServiceProvider provider;

    private RunningLaboratory(ServiceProvider provider, TestDatabase database, FakeTimeProvider clock) => (this.provider, Database, Clock) = (provider, database, clock);

    /// <summary>The laboratory's clock; starts at <see cref="FirstMorning"/>.</summary>
    public FakeTimeProvider Clock { get; }

    /// <summary>Where it keeps everything.</summary>
    public TestDatabase Database { get; }

    /// <summary>All services.</summary>
    public IServiceProvider Services => provider;

    /// <summary>A service of the laboratory.</summary>
    public T Get<T>()
        where T : notnull => provider.GetRequiredService<T>();

    /// <summary>A context of its own.</summary>
    public LaboratoryContext Data() => Get<IDbContextFactory<LaboratoryContext>>().CreateDbContext();

    /// <summary>Opens a new, empty one: not set up yet. The migrations were applied once in this process and are copied.</summary>
    public static async Task<RunningLaboratory> OpenAsync(DatabaseKind kind, Action<IServiceCollection>? change = null)
    {
        var template = await Migrated[kind].Value;
        return await OpenAsync(await template.CopyAsync(), FirstMorning, change);
    }

    /// <summary>Opens one over a database, which is removed with it. <paramref name="change"/> may replace services.</summary>
    public static async Task<RunningLaboratory> OpenAsync(TestDatabase database, DateTimeOffset now, Action<IServiceCollection>? change = null)
    {
        var clock = new FakeTimeProvider(now);
        var services = new ServiceCollection().AddSingleton<TimeProvider>(clock).AddSingleton<IPasswordHasher<Person>, QuickHasher>()
            .AddSingleton<ICertificateDrawing, PlainDrawing>().AddSingleton<IReadingFormatCheck, PlainFormatCheck>().AddSingleton<IHeadOutside, PlainHeads>()
            .AddSingleton<PlainBrowser>().AddSingleton<IPasskeyCeremony>(all => all.GetRequiredService<PlainBrowser>()).AddSingleton<ISecretSealing>(all => all.GetRequiredService<PlainBrowser>()).AddLaboratory();
        database.AddTo(services);
        change?.Invoke(services);
        var laboratory = new RunningLaboratory(services.BuildServiceProvider(), database, clock);
        await laboratory.Get<DatabaseOpening>().OpenAsync(database.BackupFolder, CancellationToken.None);
        return laboratory;
    }

    /// <summary>Ends the laboratory but keeps its database, which the caller removes.</summary>
    public async Task<TestDatabase> CloseAsync()
    {
        await provider.DisposeAsync();
        await Database.LetGoAsync();
        return Database;
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await provider.DisposeAsync();
        await Database.DisposeAsync();
    }

    private static async Task<TestDatabase> MigrateAsync(DatabaseKind kind)
    {
        var laboratory = await OpenAsync(await TestDatabase.CreateAsync(kind), FirstMorning);
        var database = await laboratory.CloseAsync();
        database.RemoveWithProcess();
        return database;
    }
}

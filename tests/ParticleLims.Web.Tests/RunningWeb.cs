using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Postgres;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.Databases;
using ParticleLims.Web.Start;

namespace ParticleLims.Web.Tests;

/// <summary>The real program on a free port, with a data folder of its own that goes away with it.</summary>
public sealed class RunningWeb : IAsyncDisposable
{
    private readonly DirectoryInfo dataFolder;
    private readonly WebApplication program;
    private TestDatabase? server;

    private RunningWeb(DirectoryInfo folder, WebApplication application)
    {
        dataFolder = folder;
        program = application;
        Address = new Uri(application.Urls.First());
        Client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = Address };
    }

    /// <summary>Where it listens.</summary>
    public Uri Address { get; }

    /// <summary>A client that follows no redirect and keeps cookies.</summary>
    public HttpClient Client { get; }

    /// <summary>The first administrator, once <see cref="SetUpAsync"/> was called.</summary>
    public Actor Administrator { get; private set; } = Actor.Unknown("test");

    /// <summary>All services of the program.</summary>
    public IServiceProvider Services => program.Services;

    /// <summary>A service of the program.</summary>
    public T Get<T>()
        where T : notnull => program.Services.GetRequiredService<T>();

    /// <summary>Starts it, empty.</summary>
    public static Task<RunningWeb> StartAsync(params string[] more) => StartAsync(null, more);

    /// <summary>Starts it on a database of a kind.</summary>
    public static async Task<RunningWeb> StartAsync(DatabaseKind kind, Action<IServiceCollection>? change)
    {
        if (kind == DatabaseKind.Sqlite)
        {
            return await StartAsync(change);
        }

        var database = await TestDatabase.CreateAsync(kind);
        try
        {
            // The throw-away server runs without fsync, which the program would refuse.
            var web = await StartAsync(services => With(services.AddSingleton<IDatabaseEngine>(new PostgresEngine(database.Place) { AllowUnsafeSettings = true }), change), "--database", database.Place);
            web.server = database;
            return web;
        }
        catch
        {
            await database.DisposeAsync();
            throw;
        }
    }

    private static void With(IServiceCollection services, Action<IServiceCollection>? change) => change?.Invoke(services);

    /// <summary>Starts it with some services replaced.</summary>
    public static async Task<RunningWeb> StartAsync(Action<IServiceCollection>? change, params string[] more)
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-web-");
        var application = WebBuilding.Build(["--data", folder.FullName, "--urls", "http://127.0.0.1:0", .. more], change);
        try
        {
            await application.Services.GetRequiredService<Opening>().OpenAsync(application, CancellationToken.None);
            await application.StartAsync();
        }
        catch
        {
            await application.DisposeAsync();
            folder.Delete(recursive: true);
            throw;
        }

        return new RunningWeb(folder, application);
    }

    /// <summary>Sets the laboratory up with its first administrator.</summary>
    public async Task<RunningWeb> SetUpAsync()
    {
        var link = await Get<LaboratorySetUp>().MakeLinkAsync(CancellationToken.None);
        var identity = new LaboratoryIdentity("Tarnfell Milling", "Mill Lane 1\nTarnfell", "laboratory@tarnfell.example", "Europe/Dublin", Address.ToString());
        var id = await Get<LaboratorySetUp>().OpenAsync(link, identity, new NewPerson("admin", "Ada Field", [], "seven blue kettles sing"), "test", CancellationToken.None);
        Administrator = new Actor(id, "test");
        return this;
    }

    /// <summary>Adds a person.</summary>
    public async Task<Actor> AddAsync(string signOnName, params Role[] roles) =>
        new(await Get<Accounts>().CreateAsync(Administrator, new NewPerson(signOnName, $"Test {signOnName}", roles, $"{signOnName} walks nine quiet miles") { Identity = ParticleLims.TestLaboratory.SmallLaboratories.SmallLaboratory.SeenInPerson }, null, CancellationToken.None), "test");

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await program.StopAsync();
        await program.DisposeAsync();
        SqlitePools.LetGoIn(dataFolder);
        dataFolder.Delete(recursive: true);
        if (server is not null)
        {
            await server.DisposeAsync();
        }
    }
}

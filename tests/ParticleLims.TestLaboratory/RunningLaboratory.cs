using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Postgres;
using ParticleLims.Storage.Sqlite;
using ParticleLims.TestLaboratory.Databases;

namespace ParticleLims.TestLaboratory;

/// <summary>Which database a test runs on.</summary>
public enum DatabaseKind
{
    Sqlite,
    Postgres,
}

/// <summary>A laboratory with its own empty database, opened as the program opens it, and a clock that the test sets.</summary>
public sealed class RunningLaboratory : IAsyncDisposable
{
    private readonly ServiceProvider provider;
    private readonly SqliteFile? ownFile;

    private RunningLaboratory(ServiceProvider provider, SqliteFile? file, FakeTimeProvider clock)
    {
        this.provider = provider;
        ownFile = file;
        Clock = clock;
    }

    /// <summary>The laboratory's clock; starts at 2026-03-02 08:00 UTC, a Monday.</summary>
    public FakeTimeProvider Clock { get; }

    /// <summary>A service of the laboratory.</summary>
    public T Get<T>()
        where T : notnull => provider.GetRequiredService<T>();

    /// <summary>A context of its own.</summary>
    public LaboratoryContext Data() => Get<IDbContextFactory<LaboratoryContext>>().CreateDbContext();

    /// <summary>Opens a new one.</summary>
    public static async Task<RunningLaboratory> OpenAsync(DatabaseKind kind)
    {
        var clock = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));
        var services = new ServiceCollection().AddSingleton<TimeProvider>(clock).AddSingleton<IPasswordHasher<Person>, QuickHasher>()
            .AddSingleton<ICertificateDrawing, PlainDrawing>().AddLaboratory();
        var file = kind == DatabaseKind.Sqlite ? new SqliteFile() : null;
        if (file is not null)
        {
            services.AddSqliteStorage(file.Path);
        }
        else
        {
            var connection = await PostgresServer.CreateDatabaseAsync();
            services.AddPostgresStorage(connection).AddSingleton<IDatabaseEngine>(new PostgresEngine(connection) { AllowUnsafeSettings = true });
        }

        var laboratory = new RunningLaboratory(services.BuildServiceProvider(), file, clock);
        await laboratory.Get<DatabaseOpening>().OpenAsync(Path.Combine(Path.GetTempPath(), "particlelims-no-backups"), CancellationToken.None);
        return laboratory;
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await provider.DisposeAsync();
        ownFile?.Dispose();
    }

    /// <summary>The real hashing is slow on purpose; tests of everything else need not wait for it.</summary>
    private sealed class QuickHasher : IPasswordHasher<Person>
    {
        private readonly PasswordHasher<Person> real = new(Microsoft.Extensions.Options.Options.Create(new PasswordHasherOptions { IterationCount = 1 }));

        public string HashPassword(Person user, string password) => real.HashPassword(user, password);

        public PasswordVerificationResult VerifyHashedPassword(Person user, string hashedPassword, string providedPassword) => real.VerifyHashedPassword(user, hashedPassword, providedPassword);
    }

    /// <summary>Stands in for the PDF: the content's number is enough to tell files apart.</summary>
    private sealed class PlainDrawing : ICertificateDrawing
    {
        public byte[] Draw(CertificateContent content) => System.Text.Encoding.UTF8.GetBytes($"certificate {content.Number} of lot {content.Product.LotNumber}");
    }
}

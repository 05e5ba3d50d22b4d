using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Postgres;

namespace ParticleLims.Laboratory.Tests.Storage;

/// <summary>A database that cannot work: the deed is refused in words, nothing is half written, and the same key carries it out once afterwards.</summary>
public sealed class DatabaseTroubleTests
{
    private const string Unlimited = "PRAGMA max_page_count = 1073741823; PRAGMA query_only = OFF";
    private const string Writable = "SET default_transaction_read_only = off";

    [Theory]
    [EachDatabase]
    public async Task A_database_that_may_only_be_read_takes_no_weighing_and_says_so(DatabaseKind kind) =>
        await TakesNoneAsync(kind, kind == DatabaseKind.Sqlite ? "PRAGMA query_only = ON" : "SET default_transaction_read_only = on", "database-read-only", DatabaseTrouble.ReadOnly);

    // PostgreSQL's own disk cannot be filled by a test; its code for that, 53100, is read in the same place as the others.
    [Fact]
    public async Task A_full_disk_takes_no_weighing_and_says_so() => await TakesNoneAsync(DatabaseKind.Sqlite, "PRAGMA max_page_count = 1", "database-full", DatabaseTrouble.DiskFull);

    [Fact]
    public async Task A_database_that_another_program_holds_says_so_and_works_when_it_is_let_go()
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(DatabaseKind.Sqlite);
        var (run, step) = await BegunAsync(laboratory);
        await using (var other = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = laboratory.Running.Database.Place, Pooling = false }.ConnectionString))
        {
            await other.OpenAsync();
            await using var held = await other.BeginTransactionAsync();
            await Refused(laboratory, run, step, "database-held");
        }

        await TakenOnceAsync(laboratory, run, step);
    }

    [Fact]
    public async Task A_server_that_is_gone_is_told_from_any_other_fault()
    {
        var engine = new PostgresEngine("Host=127.0.0.1");
        await using var nobody = new NpgsqlConnection("Host=127.0.0.1;Port=1;Username=nobody;Timeout=2");
        var gone = await Should.ThrowAsync<NpgsqlException>(() => nobody.OpenAsync());
        engine.TroubleOf(new InvalidOperationException("wrapped", gone)).ShouldBe(DatabaseTrouble.Unreachable);
        engine.TroubleOf(new PostgresException("no room", "ERROR", "ERROR", PostgresErrorCodes.DiskFull)).ShouldBe(DatabaseTrouble.DiskFull);
        engine.TroubleOf(new PostgresException("shutting down", "FATAL", "FATAL", PostgresErrorCodes.AdminShutdown)).ShouldBe(DatabaseTrouble.Unreachable);
        engine.TroubleOf(new PostgresException("twice", "ERROR", "ERROR", PostgresErrorCodes.UniqueViolation)).ShouldBeNull();
        engine.TroubleOf(new InvalidOperationException("a fault of the program")).ShouldBeNull();
    }

    private static async Task TakesNoneAsync(DatabaseKind kind, string trouble, string code, DatabaseTrouble expected)
    {
        var settings = new ConnectionSettings { Sql = kind == DatabaseKind.Sqlite ? Unlimited : Writable };
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind, services => Decorate(services, settings));
        var (run, step) = await BegunAsync(laboratory);
        var before = (await laboratory.VerifyRecordAsync()).Events;
        var usual = settings.Sql;
        settings.Sql = trouble;
        (await Refused(laboratory, run, step, code)).Trouble.ShouldBe(expected);
        settings.Sql = usual;
        (await laboratory.VerifyRecordAsync()).Events.ShouldBe(before, "nothing was half written");
        await TakenOnceAsync(laboratory, run, step);
    }

    private static async Task<(Guid Run, RunStep Step)> BegunAsync(OpenedSmallLaboratory laboratory)
    {
        var lot = await laboratory.Small.BookInAsync(laboratory.Small.Calcite);
        await laboratory.Small.Bench().StartAsync(lot.RunId, lot.Method);
        return (lot.RunId, (await laboratory.Small.Bench().ViewAsync(lot.RunId)).Next!);
    }

    private static async Task<DatabaseTroubledException> Refused(OpenedSmallLaboratory laboratory, Guid run, RunStep step, string code)
    {
        var refusal = await Should.ThrowAsync<DatabaseTroubledException>(() => laboratory.Small.Bench().WeighAsync(run, step, TestBench.TareGrams(1), "the-key"));
        refusal.Code.ShouldBe(code);
        refusal.InnerException.ShouldNotBeNull("the log keeps what the database said");
        return refusal;
    }

    private static async Task TakenOnceAsync(OpenedSmallLaboratory laboratory, Guid run, RunStep step)
    {
        var taken = await laboratory.Small.Bench().WeighAsync(run, step, TestBench.TareGrams(1), "the-key");
        (await laboratory.Small.Bench().WeighAsync(run, step, TestBench.TareGrams(1), "the-key")).ShouldBe(taken);
        (await laboratory.Small.Bench().ViewAsync(run)).Run.Weighings.ShouldHaveSingleItem().Id.ShouldBe(taken.Id);
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static void Decorate(IServiceCollection services, ConnectionSettings settings)
    {
        var usual = services.Last(one => one.ServiceType == typeof(IDbContextFactory<LaboratoryContext>));
        services.AddSingleton<IDbContextFactory<LaboratoryContext>>(provider => new SettingFactory(
            (IDbContextFactory<LaboratoryContext>)(usual.ImplementationFactory?.Invoke(provider) ?? ActivatorUtilities.CreateInstance(provider, usual.ImplementationType!)), settings));
    }

    private sealed class ConnectionSettings
    {
        public required string Sql { get; set; }
    }

    /// <summary>Tells each connection how it may work before anybody uses it.</summary>
    private sealed class SettingFactory(IDbContextFactory<LaboratoryContext> inner, ConnectionSettings settings) : IDbContextFactory<LaboratoryContext>
    {
        public LaboratoryContext CreateDbContext()
        {
            var data = inner.CreateDbContext();
            data.Database.OpenConnection();
            data.Database.ExecuteSqlRaw(settings.Sql);
            return data;
        }
    }
}

using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Analysis.Quantities;
using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Instruments.Simulation;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Sqlite;
using ParticleLims.TestLaboratory.Databases;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Readings;

namespace ParticleLims.Journeys.Tests;

/// <summary>
/// A laboratory in a data folder of its own, with a simulated balance on the network and a method of five sieves that sieve for two seconds each;
/// the program is started on it.
/// </summary>
public sealed class JourneyLaboratory : IAsyncDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("particlelims-journey-");
    private readonly ServiceProvider services;

    private JourneyLaboratory()
    {
        Balance = SimulatedBalance.Start(new SimulatedBalanceOptions { Serial = "B-JOURNEY", Seed = 7, SpeedFactor = 8, NoiseSteps = 0.1, Capacity = Mass.FromGrams(620m) }, TimeProvider.System);
        services = new ServiceCollection().AddSingleton(new SealKeys(Path.Combine(folder.FullName, "laboratory-seal"), TimeProvider.System)).AddSingleton<ICertificateDrawing, CertificatePdfWriter>().AddSingleton<IReadingFormatCheck, FormatCheck>().AddLaboratory()
            .AddSqliteStorage(Path.Combine(folder.FullName, "laboratory.db")).BuildServiceProvider();
        Program = new RunningProgram(folder.FullName, "--bench-hold=0.3", "--bench-countdown=0.3");
    }

    /// <summary>The program.</summary>
    public RunningProgram Program { get; }

    /// <summary>The balance whose pan the test loads.</summary>
    public SimulatedBalance Balance { get; }

    /// <summary>The people and products.</summary>
    public SmallLaboratory Small { get; private set; } = null!;

    /// <summary>The method of five sieves, by the words of the choice on the screen.</summary>
    public const string MethodCode = "M-GC-45-5";

    /// <summary>Sets it up and starts the program.</summary>
    /// <param name="prepare">Changes the laboratory before the program starts.</param>
    public static async Task<JourneyLaboratory> OpenAsync(Func<JourneyLaboratory, Task>? prepare = null)
    {
        var journey = new JourneyLaboratory();
        await journey.services.GetRequiredService<DatabaseOpening>().OpenAsync(Path.Combine(journey.folder.FullName, "backups"), CancellationToken.None);
        journey.Small = await SmallLaboratory.SetUpAsync(journey.services, sievingSeconds: 2);
        await journey.ConnectBalanceAsync();
        await journey.WriteMethodAsync();
        if (prepare is not null)
        {
            await prepare(journey);
        }

        await journey.Program.StartAsync();
        return journey;
    }

    /// <summary>The stored weighings of a run, read from the database itself.</summary>
    public async Task<List<Weighing>> WeighingsAsync()
    {
        await using var data = await services.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        return await data.Weighings.AsNoTracking().OrderBy(weighing => weighing.At).ToListAsync();
    }

    /// <summary>Holds the database as another program would, until it is disposed.</summary>
    public async Task<IAsyncDisposable> HoldDatabaseAsync()
    {
        var other = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder.FullName, "laboratory.db"), Pooling = false }.ConnectionString);
        await other.OpenAsync();
        await other.BeginTransactionAsync();
        return other;
    }

    /// <summary>Has the balance's readings come in by another way, in another format.</summary>
    public async Task ChangeWayInAsync(BalanceWay way, string format)
    {
        var (register, manager) = (services.GetRequiredService<BalanceRegister>(), Small.People.LaboratoryManager.Actor);
        var balance = (await register.AllAsync(manager, CancellationToken.None)).Single(one => one.Serial == "B-JOURNEY");
        await register.ChangeWayInAsync(manager, balance.Id, way, balance.Version, CancellationToken.None);
        await register.ChangeFormatAsync(manager, balance.Id, format, balance.Version + 1, CancellationToken.None);
    }

    /// <summary>Adds a reading format.</summary>
    public Task AddFormatAsync(ReadingFormatCard card) =>
        services.GetRequiredService<ReadingFormatKeeping>().AddAsync(Small.People.LaboratoryManager.Actor, card, null, CancellationToken.None);

    /// <summary>The stored intervals of sieving.</summary>
    public async Task<List<SievingInterval>> IntervalsAsync()
    {
        await using var data = await services.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        return await data.Set<SievingInterval>().AsNoTracking().ToListAsync();
    }

    /// <summary>Puts a mass on the pan while nobody is signed on: it is not taken.</summary>
    public async Task NothingIsTakenAsync(Microsoft.Playwright.IPage page, decimal grams)
    {
        ArgumentNullException.ThrowIfNull(page);
        var before = (await WeighingsAsync()).Count;
        Balance.LoadPan(Mass.FromGrams(grams));
        await page.WaitForTimeoutAsync(3_000);
        Balance.ClearPan();
        if ((await WeighingsAsync()).Count != before)
        {
            throw new InvalidOperationException("A weighing was taken while the terminal was locked.");
        }
    }

    /// <summary>Recomputes the record's chain.</summary>
    public async Task<RecordVerification> VerifyRecordAsync()
    {
        await using var data = await services.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        return await RecordVerifier.VerifyAsync(data, null, CancellationToken.None);
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await Program.DisposeAsync();
        await Balance.DisposeAsync();
        await services.DisposeAsync();
        SqlitePools.LetGoIn(folder);
        folder.Delete(recursive: true);
    }

    private async Task ConnectBalanceAsync()
    {
        var register = services.GetRequiredService<BalanceRegister>();
        var manager = Small.People.LaboratoryManager.Actor;
        var card = new BalanceCard(
            "B-JOURNEY", "Bench 2", "Bench 2", Mass.FromGrams(0.001m), Mass.FromGrams(620m), Mass.FromGrams(0.001m), BalanceWay.OnNetwork("127.0.0.1", Balance.Port), Balance.Options.Format.Name, Mass.FromGrams(200m), Mass.FromGrams(0.005m));
        var id = await register.RegisterAsync(manager, card, null, CancellationToken.None);
        await services.GetRequiredService<EquipmentLife<Balance>>().CommissionAsync(manager, id, "Calibration certificate K-119", Small.InAYear, 1, CancellationToken.None);
        var shown = new BalanceReading(id, Mass.FromGrams(200m), 3, true, "check weight", TimeProvider.System.GetUtcNow());
        await services.GetRequiredService<BalanceTesting>().CheckAsync(Small.People.Technician.Actor, id, shown, CheckCircumstances.Ready, null, CancellationToken.None);
    }

    private async Task WriteMethodAsync()
    {
        var people = Small.People;
        var draft = Small.Calcite.Draft with { Apertures = [.. Small.Calcite.Draft.Apertures, Aperture.FromMicrometres(90m)], Seconds = 2 };
        var version = await Small.Get<MethodKeeping>().WriteAsync(people.LaboratoryManager.Actor, MethodCode, "Five sieves", Small.Calcite.ProductId, draft, null, CancellationToken.None);
        var approval = Small.Get<DocumentApproval<Method, MethodVersion>>();
        await approval.HandOverAsync(people.LaboratoryManager.Actor, version, 1, CancellationToken.None);
        await approval.ApproveAsync(people.QualityManager.Actor, version, null, await Small.ProofAsync(people.QualityManager), 2, CancellationToken.None);
        var sieve = await Small.Get<SieveRegister>().RegisterAsync(people.LaboratoryManager.Actor, new SieveCard("TS-GC-45-090", Aperture.FromMicrometres(90m), 200, "ISO 3310-1:2016", "Rack A"), null, CancellationToken.None);
        await Small.Get<EquipmentLife<TestSieve>>().CommissionAsync(people.LaboratoryManager.Actor, sieve, "Inspection certificate", Small.InAYear, 1, CancellationToken.None);
    }
}

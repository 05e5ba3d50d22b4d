using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.TestLaboratory.Databases;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>A running small laboratory with its own database. It is set up once in this process for each kind of database and then copied.</summary>
public sealed class OpenedSmallLaboratory : IAsyncDisposable
{
    private static readonly Dictionary<DatabaseKind, Lazy<Task<Template>>> Templates = Enum.GetValues<DatabaseKind>()
        .ToDictionary(kind => kind, kind => new Lazy<Task<Template>>(() => Template.MakeAsync(kind)));

    private OpenedSmallLaboratory(RunningLaboratory running, SmallLaboratoryContents contents) => (Running, Small) = (running, new SmallLaboratory(running.Services, contents));

    /// <summary>The running laboratory: clock, database, services.</summary>
    public RunningLaboratory Running { get; }

    /// <summary>What is in it.</summary>
    public SmallLaboratory Small { get; }

    /// <summary>Opens a new one, ready for work. <paramref name="change"/> may replace services.</summary>
    public static async Task<OpenedSmallLaboratory> OpenAsync(DatabaseKind kind, Action<IServiceCollection>? change = null)
    {
        var template = await Templates[kind].Value;
        return new OpenedSmallLaboratory(await RunningLaboratory.OpenAsync(await template.Database.CopyAsync(), RunningLaboratory.FirstMorning, change), template.Contents);
    }

    /// <summary>Ends this one, as a program ends, and opens another over the same database at the same time of day. This one is used no more.</summary>
    public async Task<OpenedSmallLaboratory> ReopenAsync()
    {
        var now = Running.Clock.GetUtcNow();
        return new OpenedSmallLaboratory(await RunningLaboratory.OpenAsync(await Running.CloseAsync(), now), Small.Contents);
    }

    /// <summary>A service of the laboratory.</summary>
    public T Get<T>()
        where T : notnull => Running.Get<T>();

    /// <summary>A context of its own.</summary>
    public LaboratoryContext Data() => Running.Data();

    /// <summary>Recomputes the whole record.</summary>
    public async Task<RecordVerification> VerifyRecordAsync()
    {
        await using var data = Data();
        return await RecordVerifier.VerifyAsync(data, null, CancellationToken.None);
    }

    /// <inheritdoc />
    public ValueTask DisposeAsync() => Running.DisposeAsync();

    private sealed record Template(TestDatabase Database, SmallLaboratoryContents Contents)
    {
        public static async Task<Template> MakeAsync(DatabaseKind kind)
        {
            var running = await RunningLaboratory.OpenAsync(kind);
            var small = await SmallLaboratory.SetUpAsync(running.Services);
            var database = await running.CloseAsync();
            database.RemoveWithProcess();
            return new Template(database, small.Contents);
        }
    }
}

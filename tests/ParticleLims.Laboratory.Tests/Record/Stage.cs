using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>A laboratory in which one ability is tried: the small one, or an empty one that nobody has set up.</summary>
internal sealed class Stage : IAsyncDisposable
{
    private readonly OpenedSmallLaboratory? opened;

    private Stage(RunningLaboratory running, OpenedSmallLaboratory? opened) => (Running, this.opened) = (running, opened);

    /// <summary>The laboratory.</summary>
    public RunningLaboratory Running { get; }

    /// <summary>What is in it.</summary>
    public SmallLaboratory Small => opened?.Small ?? throw new InvalidOperationException("Nobody has set this laboratory up.");

    /// <summary>Everybody.</summary>
    public TestPeople People => Small.People;

    /// <summary>The reviewer's and the quality manager's desks.</summary>
    public TestDesk Desk => Small.Desk;

    /// <summary>The technician's bench.</summary>
    public TestBench Bench => Small.Bench();

    /// <summary>Opens one.</summary>
    public static async Task<Stage> OpenAsync(DatabaseKind kind, bool empty = false)
    {
        var small = empty ? null : await OpenedSmallLaboratory.OpenAsync(kind);
        return new Stage(small?.Running ?? await RunningLaboratory.OpenAsync(kind), small);
    }

    /// <summary>A service.</summary>
    public T Get<T>()
        where T : notnull => Running.Get<T>();

    /// <summary>Somebody who holds this role and no other, or nobody at all.</summary>
    public Actor ActorOf(Who who) => who switch
    {
        Who.Technician => People.Technician.Actor,
        Who.Reviewer => People.Reviewer.Actor,
        Who.QualityManager => People.QualityManager.Actor,
        Who.LaboratoryManager => People.LaboratoryManager.Actor,
        Who.Administrator => People.Administrator.Actor,
        Who.Customer => People.Customer.Actor,
        Who.NotSignedOn => Actor.Unknown("T9"),
        Who.Program => Actor.Program,
        _ => throw new ArgumentOutOfRangeException(nameof(who), who, "Not one."),
    };

    /// <summary>Rows and versions of every table.</summary>
    public async Task<string> SumAsync()
    {
        await using var data = Running.Data();
        return await Untouched.SumAsync(data);
    }

    /// <summary>The events after a number.</summary>
    public async Task<List<RecordEvent>> EventsAsync(long after)
    {
        await using var data = Running.Data();
        return await data.Events.AsNoTracking().Where(one => one.Sequence > after).OrderBy(one => one.Sequence).ToListAsync();
    }

    /// <summary>The number of the newest event; 0 when there is none.</summary>
    public async Task<long> LastAsync()
    {
        await using var data = Running.Data();
        return await data.Events.MaxAsync(one => (long?)one.Sequence) ?? 0;
    }

    /// <summary>A context of its own.</summary>
    public LaboratoryContext Data() => Running.Data();

    /// <inheritdoc />
    public ValueTask DisposeAsync() => opened?.DisposeAsync() ?? Running.DisposeAsync();
}

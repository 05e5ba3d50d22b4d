using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.Demonstration;

/// <summary>A demonstration laboratory with its history of thirty days.</summary>
public sealed record MadeLaboratory(RunningLaboratory Running, DemonstrationAccess Access)
{
    /// <summary>Makes one.</summary>
    public static async Task<MadeLaboratory> MakeAsync(DatabaseKind kind, DemonstrationOptions options)
    {
        var running = await RunningLaboratory.OpenAsync(kind);
        return new MadeLaboratory(running, (await running.Get<DemonstrationLaboratory>().OpenAsync(options, null, CancellationToken.None))!);
    }

    /// <summary>A person, signed on.</summary>
    public async Task<Actor> ActorAsync(string key)
    {
        var card = Access.People.Single(person => person.Key == key);
        return new Actor((await Running.Get<Laboratory.People.SignOn>().SignOnAsync(card.SignOnName, card.Password, new TerminalSeen("T1"), CancellationToken.None)).PersonId, "T1");
    }
}

/// <summary>One demonstration on each database, made when the first test asks for it.</summary>
public sealed class MadeLaboratories : IAsyncDisposable
{
    /// <summary>A month, which every story of the year fits into.</summary>
    public static readonly DemonstrationOptions Month = new() { PublicAddress = "http://localhost:5000", Days = 30 };

    private readonly Dictionary<DatabaseKind, Lazy<Task<MadeLaboratory>>> made = Enum.GetValues<DatabaseKind>()
        .ToDictionary(kind => kind, kind => new Lazy<Task<MadeLaboratory>>(() => MadeLaboratory.MakeAsync(kind, Month)));

    /// <summary>The one on this database.</summary>
    public Task<MadeLaboratory> OnAsync(DatabaseKind kind) => made[kind].Value;

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        foreach (var one in made.Values.Where(one => one.IsValueCreated && one.Value.IsCompletedSuccessfully))
        {
            await (await one.Value).Running.DisposeAsync();
        }
    }
}

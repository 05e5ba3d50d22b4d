using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>
/// The one way in which anything is written: opens the transaction, checks who acts, runs the deed, appends its one event and commits
/// both together. What was not committed was not done, and the caller hears it.
/// </summary>
public sealed class WritePath(IDbContextFactory<LaboratoryContext> contexts, IDatabaseEngine engine, IAuthority authority, TimeProvider clock, IEnumerable<IFollowsDeeds> followers)
{
    private static readonly CompiledQuery<string, IdempotencyEntry?> Before = new((data, key) => data.Set<IdempotencyEntry>().AsNoTracking().FirstOrDefault(entry => entry.Key == key));
    private static readonly CompiledQuery<long, RecordHead?> Head = new((data, after) =>
        data.Set<RecordEvent>().AsNoTracking().Where(one => one.Sequence > after).OrderByDescending(one => one.Sequence).Select(one => new RecordHead(one.Sequence, one.Hash)).FirstOrDefault());

    /// <summary>Carries out a deed and returns its answer, or the first answer when the key was used before.</summary>
    /// <exception cref="RefusedException">In words; nothing was written.</exception>
    public async Task<T> CarryOutAsync<T>(Deed deed, Func<DeedScope, CancellationToken, Task<T>> act, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(deed);
        ArgumentNullException.ThrowIfNull(act);
        try
        {
            return await CarryOutInOneAsync(deed, act, cancellation);
        }
        catch (Exception fault) when (engine.TroubleOf(fault) is { } trouble)
        {
            throw new DatabaseTroubledException(trouble, fault);
        }
    }

    private async Task<T> CarryOutInOneAsync<T>(Deed deed, Func<DeedScope, CancellationToken, Task<T>> act, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);

        // A deed that fails is undone as a whole, so it needs no savepoint inside.
        data.Database.AutoSavepointsEnabled = false;
        await using var transaction = await engine.BeginWritingAsync(data, cancellation);
        var by = await authority.StandingOfAsync(data, deed.By, cancellation);
        if (deed.Kind.Needs is { } needed)
        {
            by.Require(needed);
        }

        if (deed.Key is { } key && await Before.AskAsync(data, key) is { } before)
        {
            return Repeat<T>(before, deed);
        }

        RequireReason(deed);
        var scope = new DeedScope(data, deed, by, Now());
        var answer = await act(scope, cancellation);
        await FollowAsync(scope, cancellation);
        await AppendEventAsync(scope, JsonSerializer.Serialize(answer));
        StorableText.Require(data);
        await SaveAsync(data, scope, cancellation);
        await transaction.CommitAsync(cancellation);
        return answer;
    }

    // One look at every row for all of them; what they add needs none.
    private async Task FollowAsync(DeedScope scope, CancellationToken cancellation)
    {
        var changes = scope.Data.ChangeTracker;
        changes.DetectChanges();
        changes.AutoDetectChangesEnabled = false;
        foreach (var follower in followers)
        {
            await follower.FollowAsync(scope, cancellation);
        }

        changes.AutoDetectChangesEnabled = true;
    }

    private static T Repeat<T>(IdempotencyEntry before, Deed deed) =>
        before.Code == deed.Kind.Code && before.PersonId == deed.By.PersonId && before.Asked == HashOfAsked(deed)
            ? JsonSerializer.Deserialize<T>(before.Answer)!
            : throw new RefusedException("key-used", "This idempotency key was used for another deed. Use a new key for each deed.");

    private static string HashOfAsked(Deed deed) => RecordChain.HashOf(JsonSerializer.Serialize(
        deed.Asked ?? throw new InvalidOperationException($"The deed {deed.Kind.Code} has a key and does not say what was asked.")));

    private static void RequireReason(Deed deed)
    {
        if (deed.Kind.ReasonRequired && (deed.Reason?.Trim().Length ?? 0) < 5)
        {
            throw new RefusedException("reason-missing", "Say why in a few words (at least five letters): the reason stays in the record.", "reason");
        }
    }

    private static async Task AppendEventAsync(DeedScope scope, string answer)
    {
        var (kind, id, what) = scope.Subject ?? throw new InvalidOperationException($"The deed {scope.Deed.Kind.Code} did not say what it is about.");
        var label = scope.Marked(what);
        var last = await Head.AskAsync(scope.Data, 0);
        var changes = ChangeList.Close(scope.Data);
        RecordEvent Draft(string hash) => new()
        {
            Sequence = (last?.Sequence ?? 0) + 1, At = scope.Now, PersonId = scope.By.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal,
            Code = scope.Deed.Kind.Code, SubjectKind = kind, SubjectId = id, SubjectLabel = label, Reason = scope.Deed.Reason?.Trim(),
            SearchText = RecordEvent.SearchTextOf(label, scope.By.Name, scope.Deed.Kind.Code), Changes = changes, PreviousHash = last?.Hash ?? RecordChain.Origin, Hash = hash,
        };

        // All changes are known now; what is added below needs no second look at every row.
        scope.Data.ChangeTracker.AutoDetectChangesEnabled = false;
        var sealedEvent = Draft(RecordChain.HashOf(Draft(string.Empty)));
        scope.Data.Add(sealedEvent);
        if (scope.Deed.Key is { } key)
        {
            scope.Data.Add(new IdempotencyEntry { Key = key, Code = scope.Deed.Kind.Code, PersonId = scope.By.PersonId, Asked = HashOfAsked(scope.Deed), Answer = answer, EventSequence = sealedEvent.Sequence, At = scope.Now });
        }
    }

    private static async Task SaveAsync(LaboratoryContext data, DeedScope scope, CancellationToken cancellation)
    {
        try
        {
            await data.SaveChangesAsync(cancellation);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new StaleVersionException(scope.Subject!.Value.Label);
        }
    }

    private sealed record RecordHead(long Sequence, string Hash);

    private DateTimeOffset Now()
    {
        var now = clock.GetUtcNow();
        return new DateTimeOffset(now.UtcTicks - (now.UtcTicks % TimeSpan.TicksPerMicrosecond), TimeSpan.Zero);
    }
}

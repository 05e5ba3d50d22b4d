using System.Collections.Concurrent;
using System.Linq.Expressions;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>
/// Compares passwords, PINs and codes. Wrong ones are counted together for each account and place, slowed down and recorded; tries for one
/// account wait for each other, so that many at once are no way round the count.
/// </summary>
public sealed class SecretTries(WritePath writing, IDbContextFactory<LaboratoryContext> contexts, IPasswordHasher<Person> hasher, WrongSecretsWatch watch, TimeProvider clock)
{
    /// <summary>This many wrong tries are free; each further one doubles the wait, from one second to fifteen minutes.</summary>
    public const int Free = 5;

    private static readonly DeedKind RefusedDeed = new("people.secret-refused", "Wrong sign-on name, password, PIN, code or passkey", null);
    private static readonly string[] Counted = [RefusedDeed.Code, PinSignOn.BadgeRefusedCode];
    private static readonly Person Nobody = new() { FullName = "nobody", UserName = "nobody" };
    private readonly Lazy<string> nobodysHash = new(() => hasher.HashPassword(Nobody, "nobody has this password"));
    private readonly ConcurrentDictionary<Guid, SemaphoreSlim> oneAtATime = new();

    /// <summary>Finds who is meant and compares the password; answers the person.</summary>
    internal Task<Person> PasswordAsync(Expression<Func<Person, bool>> who, string password, string label, SecretPlace place, CancellationToken cancellation) =>
        CompareAsync(who, (person, _) => Task.FromResult(IsRight(person, person?.PasswordHash, password)), label, place, new("secret-wrong", "The sign-on name and the password do not belong together.", "password"), cancellation);

    /// <summary>The same for the PIN, which is not taken after too many wrong tries at terminals.</summary>
    internal Task<Person> PinAsync(Guid personId, string pin, SecretPlace place, CancellationToken cancellation) =>
        CompareAsync(person => person.Id == personId, async (person, token) => IsRight(person, person is null ? null : await PinHashAsync(person, token), pin), "PIN", place, new("secret-wrong", "The name or badge and the PIN do not belong together.", "pin"), cancellation);

    /// <summary>The same for whatever else proves a person: a one-time code, a passkey, an activation code.</summary>
    /// <param name="who">Who is meant.</param>
    /// <param name="isRight">Whether the secret is right; null for somebody unknown, whose try costs the same.</param>
    /// <param name="label">What was tried, for the record.</param>
    /// <param name="place">Where.</param>
    /// <param name="wrong">The words for a wrong one.</param>
    /// <param name="cancellation">Ends the comparing.</param>
    internal async Task<Person> CompareAsync(
        Expression<Func<Person, bool>> who, Func<Person?, CancellationToken, Task<bool>> isRight, string label, SecretPlace place, RefusedException wrong, CancellationToken cancellation)
    {
        var id = (await FindAsync(who, cancellation))?.Id;
        var gate = oneAtATime.GetOrAdd(id ?? Guid.Empty, _ => new SemaphoreSlim(1));
        await gate.WaitAsync(cancellation);
        try
        {
            var person = id is null ? null : await FindAsync(who, cancellation);
            await RequireNoWaitAsync(person, place, cancellation);
            if (await isRight(person, cancellation) && person is { Active: true })
            {
                return person;
            }

            await writing.CarryOutAsync(new Deed(RefusedDeed, Actor.Unknown(place.Terminal)), (scope, token) => CountAsync(scope, person, label, place, token), cancellation);
            await LookAsync(person, cancellation);
            throw wrong;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>The count starts anew, wherever it was.</summary>
    internal static async Task ForgetAsync(DeedScope scope, Guid personId, CancellationToken cancellation)
    {
        foreach (var wrong in await scope.Data.Set<WrongSecrets>().Where(wrong => wrong.PersonId == personId && wrong.Count > 0).ToListAsync(cancellation))
        {
            (wrong.Count, wrong.WaitUntil) = (0, null);
        }
    }

    /// <summary>Whether wrong ones are counted for a person.</summary>
    internal async Task<bool> AnyAsync(Guid personId, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await data.Set<WrongSecrets>().AnyAsync(wrong => wrong.PersonId == personId && wrong.Count > 0, cancellation);
    }

    /// <summary>Looks whether wrong secrets come in a burst, after one was recorded.</summary>
    internal Task LookAsync(Person? person, CancellationToken cancellation) =>
        watch.LookAsync(Counted, person is null ? null : (person.Id, person.FullName), clock.GetUtcNow(), cancellation);

    // An unknown name costs the same time as a known one.
    private bool IsRight(Person? person, string? hash, string secret) =>
        hasher.VerifyHashedPassword(person ?? Nobody, hash ?? nobodysHash.Value, secret) != PasswordVerificationResult.Failed && hash is not null;

    private async Task<string?> PinHashAsync(Person person, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        var wrong = await data.Set<WrongSecrets>().AsNoTracking().Where(wrong => wrong.PersonId == person.Id && wrong.Count > 0).Select(wrong => new { wrong.Place, wrong.Count }).ToListAsync(cancellation);
        return wrong.Where(one => SecretPlace.IsEnrolled(one.Place)).Sum(one => one.Count) < PinRules.WrongTries
            ? person.PinHash
            : throw new RefusedException("pin-blocked", "Too many wrong tries: the PIN is blocked. Sign on once with your password, then it works again.", "pin");
    }

    private async Task RequireNoWaitAsync(Person? person, SecretPlace place, CancellationToken cancellation)
    {
        if (person is null)
        {
            return;
        }

        await using var data = await contexts.CreateDbContextAsync(cancellation);
        var until = await data.Set<WrongSecrets>().Where(wrong => wrong.PersonId == person.Id && wrong.Place == place.Key).Select(wrong => wrong.WaitUntil).FirstOrDefaultAsync(cancellation);
        if (until > clock.GetUtcNow())
        {
            throw new RefusedException("wait", $"Too many wrong tries. Try again after {until.Value.UtcDateTime:HH:mm:ss} UTC; at an enrolled terminal, or with a passkey, it goes at once.", "password");
        }
    }

    private static async Task<bool> CountAsync(DeedScope scope, Person? found, string label, SecretPlace place, CancellationToken cancellation)
    {
        scope.About("Person", found?.Id ?? Guid.Empty, label.Length > 100 ? label[..100] : label);
        if (found is not null)
        {
            var wrong = await scope.Data.Set<WrongSecrets>().FirstOrDefaultAsync(one => one.PersonId == found.Id && one.Place == place.Key, cancellation);
            if (wrong is null)
            {
                wrong = new WrongSecrets { Id = scope.NewId(), PersonId = found.Id, Place = place.Key };
                scope.Data.Add(wrong);
            }

            wrong.Count++;
            var beyond = wrong.Count - Free;
            wrong.WaitUntil = beyond < 0 ? null : scope.Now.AddSeconds(Math.Min(Math.Pow(2, beyond), 900));
        }

        return true;
    }

    private async Task<Person?> FindAsync(Expression<Func<Person, bool>> which, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await data.Set<Person>().AsNoTracking().FirstOrDefaultAsync(which, cancellation);
    }
}

using System.Collections.Concurrent;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>
/// Compares passwords and PINs. Wrong ones are counted together for each account, slowed down and recorded; tries for one account wait
/// for each other, so that many at once are no way round the count.
/// </summary>
public sealed class SecretTries(WritePath writing, IDbContextFactory<LaboratoryContext> contexts, IPasswordHasher<Person> hasher, WrongSecretsWatch watch, TimeProvider clock)
{
    /// <summary>This many wrong tries are free; each further one doubles the wait, from one second to fifteen minutes.</summary>
    public const int Free = 5;

    private static readonly DeedKind RefusedDeed = new("people.secret-refused", "Wrong sign-on name, password or PIN", null);
    private static readonly string[] Counted = [RefusedDeed.Code, PinSignOn.BadgeRefusedCode];
    private static readonly Person Nobody = new() { FullName = "nobody", UserName = "nobody" };
    private readonly Lazy<string> nobodysHash = new(() => hasher.HashPassword(Nobody, "nobody has this password"));
    private readonly ConcurrentDictionary<Guid, SemaphoreSlim> oneAtATime = new();

    /// <summary>Finds who is meant and compares the password; answers the person.</summary>
    internal Task<Person> PasswordAsync(System.Linq.Expressions.Expression<Func<Person, bool>> who, string password, string label, string terminal, CancellationToken cancellation) =>
        CompareAsync(who, person => person.PasswordHash, password, label, terminal, new("secret-wrong", "The sign-on name and the password do not belong together.", "password"), cancellation);

    /// <summary>The same for the PIN, which is not taken after too many wrong tries.</summary>
    internal Task<Person> PinAsync(Guid personId, string pin, string terminal, CancellationToken cancellation) =>
        CompareAsync(person => person.Id == personId, PinHash, pin, "PIN", terminal, new("secret-wrong", "The name or badge and the PIN do not belong together.", "pin"), cancellation);

    /// <summary>The count starts anew.</summary>
    internal static void Forget(Person person) => (person.AccessFailedCount, person.LockoutEnd) = (0, null);

    private static string? PinHash(Person person) => person.AccessFailedCount < PinRules.WrongTries
        ? person.PinHash
        : throw new RefusedException("pin-blocked", "Too many wrong tries: the PIN is blocked. Sign on once with your password, then it works again.", "pin");

    private async Task<Person> CompareAsync(
        System.Linq.Expressions.Expression<Func<Person, bool>> who, Func<Person, string?> hash, string secret, string label, string terminal, RefusedException wrong, CancellationToken cancellation)
    {
        var id = (await FindAsync(who, cancellation))?.Id;
        var gate = oneAtATime.GetOrAdd(id ?? Guid.Empty, _ => new SemaphoreSlim(1));
        await gate.WaitAsync(cancellation);
        try
        {
            var person = id is null ? null : await FindAsync(who, cancellation);
            RequireNoWait(person);
            var known = person is null ? null : hash(person);

            // An unknown name costs the same time as a known one.
            var result = hasher.VerifyHashedPassword(person ?? Nobody, known ?? nobodysHash.Value, secret);
            if (person is { Active: true } && known is not null && result != PasswordVerificationResult.Failed)
            {
                return person;
            }

            await writing.CarryOutAsync(new Deed(RefusedDeed, Actor.Unknown(terminal)), (scope, token) => CountAsync(scope, person, label, token), cancellation);
            await LookAsync(person, cancellation);
            throw wrong;
        }
        finally
        {
            gate.Release();
        }
    }

    /// <summary>Looks whether wrong secrets come in a burst, after one was recorded.</summary>
    internal Task LookAsync(Person? person, CancellationToken cancellation) =>
        watch.LookAsync(Counted, person is null ? null : (person.Id, person.FullName), clock.GetUtcNow(), cancellation);

    private void RequireNoWait(Person? person)
    {
        if (person?.LockoutEnd is { } until && until > clock.GetUtcNow())
        {
            throw new RefusedException("wait", $"Too many wrong tries. Try again after {until.UtcDateTime:HH:mm:ss} UTC, or ask the administrator.", "password");
        }
    }

    private static async Task<bool> CountAsync(DeedScope scope, Person? found, string label, CancellationToken cancellation)
    {
        scope.About("Person", found?.Id ?? Guid.Empty, label.Length > 100 ? label[..100] : label);
        if (found is not null)
        {
            var person = await scope.FindAsync<Person>(found.Id, "person", cancellation);
            person.AccessFailedCount++;
            var beyond = person.AccessFailedCount - Free;
            person.LockoutEnd = beyond < 0 ? null : scope.Now.AddSeconds(Math.Min(Math.Pow(2, beyond), 900));
        }

        return true;
    }

    private async Task<Person?> FindAsync(System.Linq.Expressions.Expression<Func<Person, bool>> which, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await data.Set<Person>().AsNoTracking().FirstOrDefaultAsync(which, cancellation);
    }
}

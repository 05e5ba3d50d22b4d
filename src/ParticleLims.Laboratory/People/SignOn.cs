using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>Who signed on, for the session cookie.</summary>
public sealed record SignedOn(Guid PersonId, string SignOnName, string FullName, string SecurityStamp);

/// <summary>Signing on, and giving the secret again for a signature. Wrong secrets are counted together, slowed down and recorded.</summary>
public sealed class SignOn(WritePath writing, IDbContextFactory<LaboratoryContext> contexts, IPasswordHasher<Person> hasher, TimeProvider clock) : ISecretCheck
{
    /// <summary>This many wrong tries are free; each further one doubles the wait, from one second to fifteen minutes.</summary>
    public const int FreeTries = 5;

    private static readonly DeedKind SignOnDeed = new("people.sign-on", "Signed on", null);
    private static readonly DeedKind SignOffDeed = new("people.sign-off", "Signed off", null);
    private static readonly DeedKind RefusedDeed = new("people.secret-refused", "Wrong sign-on name, password or PIN", null);
    private static readonly DeedKind ForgottenDeed = new("people.wrong-tries-forgotten", "Right password after wrong ones", null);
    private static readonly Person Nobody = new() { FullName = "nobody", UserName = "nobody" };
    private readonly Lazy<string> nobodysHash = new(() => hasher.HashPassword(Nobody, "nobody has this password"));

    /// <summary>Signs on by name and password.</summary>
    /// <exception cref="RefusedException">The same words for an unknown name and for a wrong password; or "wait".</exception>
    public async Task<SignedOn> SignOnAsync(string signOnName, string password, string terminal, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(signOnName);
        ArgumentNullException.ThrowIfNull(password);
        var person = await FindAsync(person => person.NormalizedUserName == Normal(signOnName), cancellation);
        var actor = new Actor(person is { Active: true } ? person.Id : null, terminal);
        await CheckAsync(person, password, signOnName, actor, cancellation);
        return await writing.CarryOutAsync(new Deed(SignOnDeed, actor), async (scope, token) =>
        {
            var found = await scope.FindAsync<Person>(person!.Id, "person", token);
            Forget(found);
            scope.About("Person", found.Id, found.FullName);
            return new SignedOn(found.Id, found.UserName!, found.FullName, found.SecurityStamp!);
        }, cancellation);
    }

    /// <summary>Leaves the sign-off in the record.</summary>
    public Task<bool> SignOffAsync(Actor actor, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SignOffDeed, actor), (scope, _) =>
        {
            scope.About("Person", scope.PersonId, scope.By.Name);
            return Task.FromResult(true);
        }, cancellation);

    /// <summary>Whether a session still counts: the person is active and the stamp has not changed since.</summary>
    public async Task<bool> IsCurrentAsync(Guid personId, string securityStamp, CancellationToken cancellation) =>
        await FindAsync(person => person.Id == personId, cancellation) is { Active: true } person && person.SecurityStamp == securityStamp;

    /// <inheritdoc />
    public async Task<SecretProof> ProveAsync(Actor actor, string password, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(actor);
        ArgumentNullException.ThrowIfNull(password);
        var person = await FindAsync(person => person.Id == actor.PersonId, cancellation);
        return await ProveAsync(person, person?.UserName ?? "nobody", password, actor, cancellation);
    }

    /// <inheritdoc />
    public async Task<SecretProof> ProveOtherAsync(string signOnName, string password, string terminal, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(signOnName);
        ArgumentNullException.ThrowIfNull(password);
        var person = await FindAsync(person => person.NormalizedUserName == Normal(signOnName), cancellation);
        return await ProveAsync(person, signOnName, password, new Actor(person is { Active: true } ? person.Id : null, terminal), cancellation);
    }

    private async Task<SecretProof> ProveAsync(Person? person, string signOnName, string password, Actor actor, CancellationToken cancellation)
    {
        await CheckAsync(person, password, signOnName, actor, cancellation);
        if (person!.AccessFailedCount > 0)
        {
            await writing.CarryOutAsync(new Deed(ForgottenDeed, actor), async (scope, token) =>
            {
                Forget(await scope.FindAsync<Person>(person.Id, "person", token));
                scope.About("Person", person.Id, person.FullName);
                return true;
            }, cancellation);
        }

        return new SecretProof(person.Id);
    }

    /// <summary>A sign-on name as it is compared.</summary>
    public static string Normal(string signOnName) => signOnName.Trim().ToUpperInvariant();

    private async Task CheckAsync(Person? person, string password, string signOnName, Actor actor, CancellationToken cancellation)
    {
        if (person?.LockoutEnd is { } until && until > clock.GetUtcNow())
        {
            throw new RefusedException("wait", $"Too many wrong tries. Try again after {until.UtcDateTime:HH:mm:ss} UTC, or ask the administrator.", "password");
        }

        // An unknown name costs the same time as a known one.
        var result = hasher.VerifyHashedPassword(person ?? Nobody, person?.PasswordHash ?? nobodysHash.Value, password);
        if (person is { Active: true } && result != PasswordVerificationResult.Failed)
        {
            return;
        }

        await writing.CarryOutAsync(new Deed(RefusedDeed, Actor.Unknown(actor.Terminal)), (scope, token) => CountAsync(scope, person?.Id, signOnName, token), cancellation);
        throw new RefusedException("secret-wrong", "The sign-on name and the password do not belong together.", "password");
    }

    private static async Task<bool> CountAsync(DeedScope scope, Guid? personId, string signOnName, CancellationToken cancellation)
    {
        var label = signOnName.Length > 100 ? signOnName[..100] : signOnName;
        scope.About("Person", personId ?? Guid.Empty, label);
        if (personId is { } id)
        {
            var person = await scope.FindAsync<Person>(id, "person", cancellation);
            person.AccessFailedCount++;
            var beyond = person.AccessFailedCount - FreeTries;
            person.LockoutEnd = beyond < 0 ? null : scope.Now.AddSeconds(Math.Min(Math.Pow(2, beyond), 900));
        }

        return true;
    }

    private static void Forget(Person person) => (person.AccessFailedCount, person.LockoutEnd) = (0, null);

    private async Task<Person?> FindAsync(System.Linq.Expressions.Expression<Func<Person, bool>> which, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await data.Set<Person>().AsNoTracking().FirstOrDefaultAsync(which, cancellation);
    }
}

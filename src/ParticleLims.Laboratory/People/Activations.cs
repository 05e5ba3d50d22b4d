using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>An activation code to be handed over now: it is answered once.</summary>
public sealed record ActivationIssued(string SignOnName, string Code, DateTimeOffset ExpiresAt);

/// <summary>An activation as the lists show it; its code is nowhere.</summary>
/// <param name="Id">The activation.</param>
/// <param name="PersonId">Whose account it is.</param>
/// <param name="PersonName">The name.</param>
/// <param name="IssuedBy">Who issued the code.</param>
/// <param name="IssuedAt">When.</param>
/// <param name="ExpiresAt">Until when it is good.</param>
/// <param name="UsedAt">When a password was set with it.</param>
/// <param name="Waits">Whether somebody has to confirm that it was the person, before the person signs again.</param>
/// <param name="ConfirmedBy">Who did.</param>
public sealed record ActivationRow(Guid Id, Guid PersonId, string PersonName, string IssuedBy, DateTimeOffset IssuedAt, DateTimeOffset ExpiresAt, DateTimeOffset? UsedAt, bool Waits, string? ConfirmedBy);

/// <summary>
/// Activation codes: nobody but the person ever knows a password. Where an account had one before, whoever issues the code could use it; so a second
/// person confirms that it was the right one, and until then the account signs nothing.
/// </summary>
public sealed class Activations(WritePath writing, ReadPath reading, SecretTries tries, IPasswordHasher<Person> hasher, TimeProvider clock)
{
    private static readonly DeedKind IssueDeed = new("people.issue-activation", "Activation code issued", Permission.KeepPeople, ReasonRequired: true);
    private static readonly DeedKind ConsoleDeed = new("people.issue-activation-at-console", "Activation code issued at the console", Permission.ActAsProgram);
    private static readonly DeedKind UseDeed = new("people.activate", "Password set with an activation code", null);
    private static readonly DeedKind ConfirmDeed = new("people.confirm-activation", "Confirmed that the person set the password", Permission.SeeAccess);

    /// <summary>Issues a code and answers it once. The password, if there is one, and the running sessions end at once; earlier codes too.</summary>
    public Task<ActivationIssued> IssueAsync(Actor actor, Guid personId, string reason, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IssueDeed, actor, Reason: reason), async (scope, token) =>
        {
            var person = await scope.FindAsync<Person>(personId, "person", token);
            scope.About("Person", person.Id, person.FullName);
            if (person.Id == scope.PersonId || !person.Active)
            {
                throw new RefusedException("activation-not-for", person.Active ? "Your own password is changed under Your account." : $"The account of {person.FullName} is disabled.");
            }

            return await IssueAsync(scope, person, scope.PersonId, scope.By.Name, token);
        }, cancellation);

    /// <summary>The same at the server's console, for whoever has the machine in hand: the way back for the last administrator.</summary>
    /// <exception cref="RefusedException">There is no such account, or it is disabled.</exception>
    public Task<ActivationIssued> IssueAtConsoleAsync(string signOnName, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ConsoleDeed, Actor.Program), async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(signOnName);
            var normal = SignOn.Normal(signOnName);
            var person = await scope.Data.Set<Person>().FirstOrDefaultAsync(one => one.NormalizedUserName == normal && one.Active, token)
                ?? throw new RefusedException("not-found", $"There is no active account “{signOnName}”.");
            scope.About("Person", person.Id, person.FullName);
            return await IssueAsync(scope, person, Guid.Empty, "the server's console", token);
        }, cancellation);

    /// <summary>A person sets the own password with the code. It does not sign on.</summary>
    /// <param name="signOnName">Whose account.</param>
    /// <param name="code">The code.</param>
    /// <param name="newPassword">The password.</param>
    /// <param name="at">The browser.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">The same words for an unknown name and for a wrong, used or old code; or the password is too weak.</exception>
    public async Task<bool> UseAsync(string signOnName, string code, string newPassword, TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(signOnName);
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(newPassword);
        ArgumentNullException.ThrowIfNull(at);
        var (normal, hash) = (SignOn.Normal(signOnName), HashOf(code));
        var wrong = new RefusedException("activation-wrong", "The sign-on name and the code do not belong together, or the code was used or is too old. Ask the administrator for another one.", "code");
        var person = await tries.CompareAsync(
            person => person.NormalizedUserName == normal, async (person, token) => person is not null && await reading.ReadOpenlyAsync((data, inner) => GoodAsync(data, person.Id, hash, clock.GetUtcNow(), inner), token) is not null,
            "activation code", SecretPlace.At(at), wrong, cancellation);
        return await writing.CarryOutAsync(new Deed(UseDeed, new Actor(person.Id, at.Name)), async (scope, token) =>
        {
            var found = await scope.FindAsync<Person>(person.Id, "person", token);
            var activation = await GoodAsync(scope.Data, found.Id, hash, scope.Now, token) ?? throw wrong;
            PasswordRules.Require(newPassword, found.UserName!, found.FullName);
            found.PasswordHash = hasher.HashPassword(found, newPassword);
            found.SecurityStamp = Accounts.NewStamp();
            activation.UsedAt = scope.Now;
            await SecretTries.ForgetAsync(scope, found.Id, token);
            scope.About("Person", found.Id, found.FullName);
            return true;
        }, cancellation);
    }

    /// <summary>Somebody other than who issued the code confirms that the person set the password: from then on the account signs again.</summary>
    public Task<bool> ConfirmAsync(Actor actor, Guid activationId, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ConfirmDeed, actor), async (scope, token) =>
        {
            var activation = await scope.FindAsync<Activation>(activationId, "activation", token);
            var person = await scope.FindAsync<Person>(activation.PersonId, "person", token);
            scope.About("Person", person.Id, person.FullName);
            if (activation.UsedAt is null || activation.ConfirmedAt is not null)
            {
                throw new RefusedException("activation-not-waiting", "Nothing waits to be confirmed here: the code was not used yet, or somebody confirmed it already.");
            }

            if (scope.PersonId == activation.IssuedById || scope.PersonId == activation.PersonId)
            {
                throw new RefusedException("second-person", $"Somebody other than {activation.IssuedBy}, who issued the code, and {person.FullName} confirms this.");
            }

            (activation.ConfirmedBy, activation.ConfirmedAt) = (scope.By.Name, scope.Now);
            return true;
        }, cancellation);

    /// <summary>The codes of everybody or of one person, the newest first.</summary>
    public Task<List<ActivationRow>> AllAsync(Actor actor, Guid? personId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeAccess, async (data, _, token) => (await (
            from activation in data.Set<Activation>()
            join person in data.Set<Person>() on activation.PersonId equals person.Id
            where activation.ReplacedAt == null && (personId == null || activation.PersonId == personId)
            orderby activation.IssuedAt descending
            select new { activation, person.FullName }).ToListAsync(token))
            .ConvertAll(one => new ActivationRow(one.activation.Id, one.activation.PersonId, one.FullName, one.activation.IssuedBy, one.activation.IssuedAt, one.activation.ExpiresAt, one.activation.UsedAt, Waits(one.activation), one.activation.ConfirmedBy)), cancellation);

    private static async Task<ActivationIssued> IssueAsync(DeedScope scope, Person person, Guid issuerId, string issuer, CancellationToken cancellation)
    {
        var earlier = await scope.Data.Set<Activation>().Where(one => one.PersonId == person.Id).ToListAsync(cancellation);
        foreach (var one in earlier.Where(one => one is { UsedAt: null, ReplacedAt: null }))
        {
            one.ReplacedAt = scope.Now;
        }

        var code = ShortCode.Random(Activation.Letters);
        scope.Data.Add(new Activation
        {
            Id = scope.NewId(), PersonId = person.Id, CodeHash = HashOf(code), IssuedById = issuerId, IssuedBy = issuer, IssuedAt = scope.Now, ExpiresAt = scope.Now + Activation.Lasts,
            First = person.PasswordHash is null && earlier.TrueForAll(one => one.First && one.UsedAt is null),
        });
        person.PasswordHash = null;
        person.SecurityStamp = Accounts.NewStamp();
        return new ActivationIssued(person.UserName!, code, scope.Now + Activation.Lasts);
    }

    /// <summary>The activation for which somebody has to be confirmed before they sign; null when there is none.</summary>
    internal static Task<Activation?> OpenAsync(LaboratoryContext data, Guid personId, CancellationToken cancellation) =>
        data.Set<Activation>().Where(one => one.PersonId == personId && !one.First && one.UsedAt != null && one.ConfirmedAt == null).OrderByDescending(one => one.IssuedAt).FirstOrDefaultAsync(cancellation);

    private static bool Waits(Activation one) => one is { First: false, UsedAt: not null, ConfirmedAt: null };

    private static Task<Activation?> GoodAsync(LaboratoryContext data, Guid personId, string hash, DateTimeOffset now, CancellationToken cancellation) =>
        data.Set<Activation>().FirstOrDefaultAsync(one => one.PersonId == personId && one.CodeHash == hash && one.UsedAt == null && one.ReplacedAt == null && one.ExpiresAt > now, cancellation);

    private static string HashOf(string code) => RecordChain.HashOf($"activation {ShortCode.Normal(code)}");
}

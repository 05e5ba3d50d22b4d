using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>A person whose name may be chosen at a shared terminal.</summary>
public sealed record PersonTile(Guid PersonId, string FullName);

/// <summary>A badge that was read: whose it is.</summary>
public sealed record BadgeSeen(Guid BadgeId, Guid PersonId, string FullName);

/// <summary>Signing on at an enrolled terminal, by badge or by choosing the name, and the PIN. Nowhere else is a PIN taken.</summary>
public sealed class PinSignOn(WritePath writing, ReadPath reading, SecretTries tries)
{
    /// <summary>The event of a badge that is not in use.</summary>
    internal const string BadgeRefusedCode = "people.badge-refused";

    private static readonly DeedKind SignOnDeed = new("people.sign-on-with-pin", "Signed on with a PIN", null);
    private static readonly DeedKind BadgeRefusedDeed = new(BadgeRefusedCode, "Unknown or revoked badge", null);

    /// <summary>Those who may sign on with a PIN, by name; nobody at a browser that is not enrolled.</summary>
    public Task<List<PersonTile>> TilesAsync(TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(at);
        return reading.ReadOpenlyAsync((data, token) => data.Set<Person>()
            .Where(person => person.Active && person.PinHash != null && person.CustomerId == null && data.Set<Terminal>().Any(terminal => terminal.Id == at.Id && terminal.EnrolledAt != null && terminal.WithdrawnAt == null))
            .OrderBy(person => person.FullName).Select(person => new PersonTile(person.Id, person.FullName)).ToListAsync(token), cancellation);
    }

    /// <summary>Whose badge it is. An unknown, revoked or disabled person's badge is refused in the same words, and recorded.</summary>
    public async Task<BadgeSeen> ReadBadgeAsync(TerminalSeen at, string code, CancellationToken cancellation)
    {
        RequireEnrolled(at);
        var hash = RecordChain.HashOf(ShortCode.Normal(code));
        var found = await reading.ReadOpenlyAsync((data, token) => data.Set<Badge>().Where(badge => badge.CodeHash == hash && badge.RevokedAt == null)
            .Join(data.Set<Person>().Where(person => person.Active), badge => badge.PersonId, person => person.Id, (badge, person) => new BadgeSeen(badge.Id, person.Id, person.FullName)).FirstOrDefaultAsync(token), cancellation);
        if (found is not null)
        {
            return found;
        }

        await writing.CarryOutAsync(new Deed(BadgeRefusedDeed, Actor.Unknown(at.Name)), (scope, _) =>
        {
            scope.About("Terminal", at.Id!.Value, at.Name);
            return Task.FromResult(true);
        }, cancellation);
        await tries.LookAsync(null, cancellation);
        throw new RefusedException("badge-unknown", "This is no badge that is in use. Choose your name instead, and ask the administrator for a badge.", "badge");
    }

    /// <summary>Signs on with the PIN. Whoever was signed on at the terminal is not any more.</summary>
    /// <param name="at">The enrolled terminal.</param>
    /// <param name="personId">Who was chosen, or whose badge was read.</param>
    /// <param name="badgeId">The badge that was read; null when the name was chosen.</param>
    /// <param name="pin">The PIN.</param>
    /// <param name="cancellation">Ends the trying.</param>
    /// <exception cref="RefusedException">Not an enrolled terminal, a wrong PIN, or too many wrong ones.</exception>
    public async Task<SignedOn> SignOnAsync(TerminalSeen at, Guid personId, Guid? badgeId, string pin, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(pin);
        RequireEnrolled(at);
        var person = await tries.PinAsync(personId, pin, SecretPlace.At(at), cancellation);
        return await writing.CarryOutAsync(new Deed(SignOnDeed, new Actor(person.Id, at.Name)), async (scope, token) =>
        {
            await RequireEnrolledAsync(scope, at, token);
            await RequireOwnBadgeAsync(scope, badgeId, token);
            var found = await scope.FindAsync<Person>(person.Id, "person", token);
            if (found.CustomerId is not null)
            {
                throw new RefusedException("pin-not-here", "A customer's contact signs on with the password.", "pin");
            }

            await SecretTries.ForgetAsync(scope, found.Id, token);
            scope.About("Person", found.Id, found.FullName);
            return await SessionOpening.OpenAsync(scope, found, at, badgeId is null ? SignOnWay.NameAndPin : SignOnWay.BadgeAndPin, badgeId, token);
        }, cancellation);
    }

    private static void RequireEnrolled(TerminalSeen at)
    {
        ArgumentNullException.ThrowIfNull(at);
        if (at.Id is null)
        {
            throw NotEnrolled();
        }
    }

    // Asked again in the transaction: it may have been withdrawn since the page was opened.
    private static async Task RequireEnrolledAsync(DeedScope scope, TerminalSeen at, CancellationToken cancellation)
    {
        if (await scope.FindAsync<Terminal>(at.Id!.Value, "terminal", cancellation) is not { EnrolledAt: not null, WithdrawnAt: null })
        {
            throw NotEnrolled();
        }
    }

    private static async Task RequireOwnBadgeAsync(DeedScope scope, Guid? badgeId, CancellationToken cancellation)
    {
        if (badgeId is { } id && await scope.FindAsync<Badge>(id, "badge", cancellation) is var badge && (badge.RevokedAt is not null || badge.PersonId != scope.PersonId))
        {
            throw new RefusedException("badge-unknown", "This badge was revoked. Choose your name instead, and ask the administrator for another badge.", "badge");
        }
    }

    private static RefusedException NotEnrolled() => new("terminal-not-enrolled", "A PIN or a badge works only at a terminal that the administrator has enrolled. Sign on with your name and password.", "pin");
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.AccessReviews;

/// <summary>The periodic look at who may do what: read by quality manager and administrator, signed by the quality manager.</summary>
public sealed class AccessReviewing(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private const string Meaning = "reviewed";
    private static readonly DeedKind SignDeed = new("access.review", "Accounts and roles reviewed", Permission.ReviewAccess);

    /// <summary>Who may do what now, and when it was last reviewed.</summary>
    public Task<AccessBoard> BoardAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeAccess, async (data, _, token) =>
        {
            var settings = await SettingsKeeping.OfAsync(data, token);
            var past = await data.AccessReviews.OrderByDescending(review => review.At).ToListAsync(token);
            var due = past is [var last, ..] ? last.At.AddDays(settings.AccessReviewEveryDays) : (DateTimeOffset?)null;
            return new AccessBoard(await ListAsync(data, settings, clock.GetUtcNow(), token), past, settings.AccessReviewEveryDays, due, due is null || due < clock.GetUtcNow());
        }, cancellation);

    /// <summary>The list that one review signed.</summary>
    public Task<string?> ContentAsync(Actor actor, Guid reviewId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeAccess, (data, _, token) =>
            data.AccessReviews.Where(review => review.Id == reviewId).Join(data.Signatures, review => review.SignatureId, signature => signature.Id, (_, signature) => signature.Content).FirstOrDefaultAsync(token), cancellation);

    /// <summary>Signs the list that the page showed.</summary>
    /// <exception cref="RefusedException">It changed meanwhile, or nothing is said about it.</exception>
    public Task<Guid> SignAsync(Actor actor, string finding, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SignDeed, actor), async (scope, token) =>
        {
            var list = await ListAsync(scope.Data, await SettingsKeeping.OfAsync(scope.Data, token), scope.Now, token);
            if (list.ContentHash != shownHash)
            {
                throw new StaleVersionException("The list of accounts");
            }

            if ((finding?.Trim().Length ?? 0) < 5)
            {
                throw new RefusedException("finding-missing", "Say in a few words what you found and what follows (at least five letters).", "finding");
            }

            var id = scope.NewId();
            scope.About(nameof(AccessReview), id, $"Accounts and roles, {list.Accounts.Count(account => account.Active)} active");
            var signature = scope.Sign(proof, Meaning, (nameof(AccessReview), id), list.Content);
            scope.Data.Add(new AccessReview
            {
                Id = id, At = scope.Now, PersonId = scope.PersonId, PersonName = scope.By.Name, SignatureId = signature.Id, Accounts = list.Accounts.Count, Active = list.Accounts.Count(account => account.Active), Finding = finding!.Trim(),
            });
            return id;
        }, cancellation);

    private static async Task<AccessList> ListAsync(LaboratoryContext data, LaboratorySettings settings, DateTimeOffset now, CancellationToken cancellation)
    {
        var people = await data.Set<Person>().AsNoTracking().Include(person => person.Roles).OrderByDescending(person => person.Active).ThenBy(person => person.FullName).ThenBy(person => person.UserName).ToListAsync(cancellation);
        var uses = await data.Set<Session>().GroupBy(session => session.PersonId).Select(group => new { group.Key, At = group.Max(session => session.BegunAt) }).ToDictionaryAsync(use => use.Key, use => use.At, cancellation);
        var badges = await data.Set<Badge>().Where(badge => badge.RevokedAt == null).GroupBy(badge => badge.PersonId).Select(group => new { group.Key, Count = group.Count() }).ToDictionaryAsync(one => one.Key, one => one.Count, cancellation);
        var tokens = await data.Set<ApiToken>().Where(one => one.RevokedAt == null && one.ExpiresAt > now).GroupBy(one => one.PersonId).Select(group => new { group.Key, Count = group.Count() }).ToDictionaryAsync(one => one.Key, one => one.Count, cancellation);
        var codes = await data.Set<OneTimeCodeKey>().Where(key => key.ConfirmedAt != null && key.RemovedAt == null).Select(key => key.PersonId).ToHashSetAsync(cancellation);
        var passkeys = await data.Set<Passkey>().GroupBy(key => key.PersonId).Select(group => new { group.Key, Count = group.Count() }).ToDictionaryAsync(one => one.Key, one => one.Count, cancellation);
        return new AccessList(
        [
            .. people.Select(person => new AccountSeen(
                person.Id, person.FullName, person.UserName!, [.. person.Roles.Select(role => role.Role).Order()], person.Active, uses.TryGetValue(person.Id, out var at) ? settings.LocalDay(at) : null, person.PinHash is not null,
                SecondFactorOf(codes.Contains(person.Id), passkeys.GetValueOrDefault(person.Id)), badges.GetValueOrDefault(person.Id), tokens.GetValueOrDefault(person.Id))),
        ]);
    }

    private static string? SecondFactorOf(bool codes, int passkeys)
    {
        string?[] parts = [codes ? "one-time codes" : null, passkeys switch { 0 => null, 1 => "1 passkey", _ => string.Create(CultureInfo.InvariantCulture, $"{passkeys} passkeys") }];
        return codes || passkeys > 0 ? string.Join(", ", parts.OfType<string>()) : null;
    }
}

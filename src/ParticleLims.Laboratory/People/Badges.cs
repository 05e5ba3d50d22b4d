using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>A badge as the administrator's list shows it; its code is nowhere.</summary>
public sealed record BadgeRow(Guid Id, string Number, DateTimeOffset IssuedAt, DateTimeOffset? RevokedAt);

/// <summary>A badge to be printed now: the code is answered once.</summary>
public sealed record BadgeIssued(string Number, string Code, string FullName);

/// <summary>Issues and revokes badges.</summary>
public sealed class Badges(WritePath writing, ReadPath reading)
{
    /// <summary>20 letters of 18 are 83 bits.</summary>
    private const int CodeLetters = 20;

    private static readonly DeedKind IssueDeed = new("people.issue-badge", "Badge issued", Permission.KeepPeople);
    private static readonly DeedKind RevokeDeed = new("people.revoke-badge", "Badge revoked", Permission.KeepPeople, ReasonRequired: true);

    /// <summary>Issues a badge and answers its code in clear, once. Earlier badges of the person stay good until they are revoked.</summary>
    public Task<BadgeIssued> IssueAsync(Actor actor, Guid personId, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IssueDeed, actor), async (scope, token) =>
        {
            var person = await scope.FindAsync<Person>(personId, "person", token);
            if (!person.Active || person.CustomerId is not null)
            {
                throw new RefusedException("badge-not-for", $"{person.FullName} gets no badge: badges are for the laboratory's own people whose account is active.");
            }

            var issued = await scope.Data.Set<Badge>().CountAsync(token);
            var code = ShortCode.Random(CodeLetters);
            var number = string.Create(CultureInfo.InvariantCulture, $"B-{issued + 1:0000}");
            scope.Data.Add(new Badge { Id = scope.NewId(), PersonId = person.Id, Number = number, CodeHash = RecordChain.HashOf(code), IssuedAt = scope.Now });
            scope.About("Person", person.Id, $"{person.FullName}, badge {number}");
            return new BadgeIssued(number, code, person.FullName);
        }, cancellation);

    /// <summary>Revokes a badge at once; a session begun with it is over.</summary>
    public Task<bool> RevokeAsync(Actor actor, Guid badgeId, string reason, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RevokeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var badge = await scope.FindAsync<Badge>(badgeId, "badge", token);
            badge.RevokedAt ??= scope.Now;
            var person = await scope.FindAsync<Person>(badge.PersonId, "person", token);
            scope.About("Person", person.Id, $"{person.FullName}, badge {badge.Number}");
            return true;
        }, cancellation);

    /// <summary>The badges of a person, the newest first.</summary>
    public Task<List<BadgeRow>> OfPersonAsync(Actor actor, Guid personId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepPeople, (data, _, token) => data.Set<Badge>().Where(badge => badge.PersonId == personId).OrderByDescending(badge => badge.IssuedAt)
            .Select(badge => new BadgeRow(badge.Id, badge.Number, badge.IssuedAt, badge.RevokedAt)).ToListAsync(token), cancellation);
}

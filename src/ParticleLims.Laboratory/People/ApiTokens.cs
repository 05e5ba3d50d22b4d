using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>What a token may be used for.</summary>
public enum TokenScope
{
    /// <summary>Evaluate without storing.</summary>
    Evaluate,
}

/// <summary>A bearer token for programs: shown once, stored as a hash, bound to a person, expiring.</summary>
public sealed class ApiToken : IVersioned
{
    public Guid Id { get; init; }
    public Guid PersonId { get; init; }
    public required string Name { get; init; }

    [Secret]
    public required string Hash { get; init; }

    /// <summary>Scopes joined by commas.</summary>
    public required string Scopes { get; init; }
    public DateTimeOffset CreatedAt { get; init; }
    public DateTimeOffset ExpiresAt { get; init; }
    public DateTimeOffset? RevokedAt { get; set; }
    public long Version { get; set; }
}

internal sealed class ApiTokenTable : IEntityTypeConfiguration<ApiToken>
{
    public void Configure(EntityTypeBuilder<ApiToken> builder)
    {
        builder.ToTable("api_tokens").HasIndex(token => token.Hash).IsUnique();
        builder.Property(token => token.Hash).HasMaxLength(64);
        builder.HasOne<Person>().WithMany().HasForeignKey(token => token.PersonId);
    }
}

/// <summary>Who a token speaks for, and for what.</summary>
public sealed record TokenHolder(Actor Actor, IReadOnlySet<TokenScope> Scopes);

/// <summary>A token as the administrator's list shows it; its clear text is nowhere.</summary>
public sealed record TokenRow(Guid Id, Guid PersonId, string Name, string Scopes, DateTimeOffset CreatedAt, DateTimeOffset ExpiresAt, DateTimeOffset? RevokedAt);

/// <summary>Issues, revokes and recognises tokens.</summary>
public sealed class ApiTokens(WritePath writing, ReadPath reading, IDbContextFactory<LaboratoryContext> contexts, TimeProvider clock)
{
    private static readonly DeedKind IssueDeed = new("people.issue-token", "Token issued", Permission.KeepPeople);
    private static readonly DeedKind RevokeDeed = new("people.revoke-token", "Token revoked", Permission.KeepPeople, ReasonRequired: true);

    /// <summary>Issues a token for a person and answers it in clear, once.</summary>
    public async Task<string> IssueAsync(Actor actor, Guid personId, string name, IReadOnlyList<TokenScope> scopes, TimeSpan validFor, CancellationToken cancellation)
    {
        if (validFor <= TimeSpan.Zero || validFor > TimeSpan.FromDays(400) || scopes.Count == 0 || string.IsNullOrWhiteSpace(name))
        {
            throw new RefusedException("token", "A token has a name, at least one scope and expires within 400 days.");
        }

        var clear = "plt_" + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
        await writing.CarryOutAsync(new Deed(IssueDeed, actor), async (scope, token) =>
        {
            var person = await scope.FindAsync<Person>(personId, "person", token);
            Accounts.RequireActive(person);
            scope.Data.Add(new ApiToken
            {
                Id = scope.NewId(), PersonId = person.Id, Name = name.Trim(), Hash = RecordChain.HashOf(clear), Scopes = string.Join(',', scopes.Distinct().Order()),
                CreatedAt = scope.Now, ExpiresAt = scope.Now + validFor,
            });
            scope.About("Person", person.Id, person.FullName);
            return true;
        }, cancellation);
        return clear;
    }

    /// <summary>Revokes a token at once.</summary>
    public Task<bool> RevokeAsync(Actor actor, Guid tokenId, string reason, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RevokeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var found = await scope.FindAsync<ApiToken>(tokenId, "token", token);
            found.RevokedAt ??= scope.Now;
            scope.About("Person", found.PersonId, found.Name);
            return true;
        }, cancellation);

    /// <summary>The tokens that speak for a person, the newest first.</summary>
    public Task<List<TokenRow>> OfPersonAsync(Actor actor, Guid personId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepPeople, (data, _, token) => data.Set<ApiToken>().Where(one => one.PersonId == personId).OrderByDescending(one => one.CreatedAt)
            .Select(one => new TokenRow(one.Id, one.PersonId, one.Name, one.Scopes, one.CreatedAt, one.ExpiresAt, one.RevokedAt)).ToListAsync(token), cancellation);

    /// <summary>Who holds this token; null when unknown, expired or revoked.</summary>
    public async Task<TokenHolder?> RecogniseAsync(string clear, string terminal, CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        var hash = RecordChain.HashOf(clear);
        var found = await data.Set<ApiToken>().AsNoTracking().FirstOrDefaultAsync(token => token.Hash == hash, cancellation);
        return found is { RevokedAt: null } && found.ExpiresAt > clock.GetUtcNow()
            ? new TokenHolder(new Actor(found.PersonId, terminal), found.Scopes.Split(',').Select(Enum.Parse<TokenScope>).ToHashSet())
            : null;
    }
}

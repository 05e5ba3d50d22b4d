using System.Security.Cryptography;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Settings;

/// <summary>The laboratory's name and address as people write them.</summary>
public sealed record LaboratoryIdentity(string Name, string Address, string Contact, string TimeZone, string PublicAddress)
{
    /// <summary>Refuses an identity that certificates could not carry.</summary>
    /// <exception cref="RefusedException">Says what is missing.</exception>
    public void Check()
    {
        if (string.IsNullOrWhiteSpace(Name) || !TimeZoneInfo.TryFindSystemTimeZoneById(TimeZone, out _))
        {
            throw new RefusedException("laboratory", "The laboratory has a name and a known time zone such as Europe/Dublin.", "name");
        }

        if (!Uri.TryCreate(PublicAddress, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https"))
        {
            throw new RefusedException("public-address", "The public address starts with https:// (or http:// inside a closed network).", "publicAddress");
        }
    }
}

/// <summary>Sets up an empty laboratory by a one-time link that expires: its name and its first administrator. There is no default account.</summary>
public sealed class LaboratorySetUp(WritePath writing, IDbContextFactory<LaboratoryContext> contexts, IPasswordHasher<Person> hasher, TimeProvider clock)
{
    /// <summary>How long a link is good for.</summary>
    public static readonly TimeSpan LinkLasts = TimeSpan.FromHours(1);

    private static readonly DeedKind LinkDeed = new("settings.set-up-link", "Set-up link made", Permission.ActAsProgram);
    private static readonly DeedKind OpenDeed = new("settings.set-up", "Laboratory set up", null);
    private static readonly DeedKind DemonstrationDeed = new("settings.set-up-demonstration", "Demonstration laboratory set up", Permission.ActAsProgram);

    /// <summary>Whether the laboratory has been set up.</summary>
    public async Task<bool> IsDoneAsync(CancellationToken cancellation)
    {
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await data.Set<LaboratorySettings>().AnyAsync(cancellation);
    }

    /// <summary>Makes a new link and answers its secret part; earlier links stop working.</summary>
    public Task<string> MakeLinkAsync(CancellationToken cancellation)
    {
        var secret = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(24));
        return writing.CarryOutAsync(new Deed(LinkDeed, Actor.Program), async (scope, token) =>
        {
            await RefuseSecondTimeAsync(scope.Data, token);
            foreach (var earlier in await scope.Data.Set<SetUpLink>().Where(link => link.UsedAt == null).ToListAsync(token))
            {
                earlier.UsedAt = scope.Now;
            }

            scope.Data.Add(new SetUpLink { Id = scope.NewId(), TokenHash = RecordChain.HashOf(secret), ExpiresAt = scope.Now + LinkLasts });
            scope.About("Laboratory", LaboratorySettings.OnlyId, "Laboratory");
            return secret;
        }, cancellation);
    }

    /// <summary>Whether a link can still be used, so that nobody fills in a form in vain.</summary>
    public async Task<bool> IsLinkGoodAsync(string secret, CancellationToken cancellation)
    {
        var (hash, now) = (RecordChain.HashOf(secret), clock.GetUtcNow());
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        return await data.Set<SetUpLink>().AsNoTracking().FirstOrDefaultAsync(link => link.TokenHash == hash, cancellation) is { UsedAt: null } link && link.ExpiresAt > now;
    }

    /// <summary>Uses the link: writes the laboratory's identity and its first administrator.</summary>
    /// <exception cref="RefusedException">The link is unknown, used or expired, or the input is refused.</exception>
    public Task<Guid> OpenAsync(string secret, LaboratoryIdentity identity, NewPerson administrator, string terminal, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(OpenDeed, Actor.Unknown(terminal)), async (scope, token) =>
        {
            var hash = RecordChain.HashOf(secret);
            var link = await scope.Data.Set<SetUpLink>().FirstOrDefaultAsync(link => link.TokenHash == hash, token);
            if (link is not { UsedAt: null } || link.ExpiresAt <= scope.Now)
            {
                throw new RefusedException("set-up-link", "This set-up link was used already or has expired. Start the program again: it prints a new one.");
            }

            link.UsedAt = scope.Now;
            return await OpenAsync(scope, identity, administrator, demonstration: false, token);
        }, cancellation);

    /// <summary>Sets up the demonstration without a link.</summary>
    internal Task<Guid> OpenDemonstrationAsync(LaboratoryIdentity identity, NewPerson administrator, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(DemonstrationDeed, Actor.Program), (scope, token) => OpenAsync(scope, identity, administrator, demonstration: true, token), cancellation);

    private async Task<Guid> OpenAsync(DeedScope scope, LaboratoryIdentity identity, NewPerson administrator, bool demonstration, CancellationToken cancellation)
    {
        await RefuseSecondTimeAsync(scope.Data, cancellation);
        identity.Check();
        scope.Data.Add(new LaboratorySettings
        {
            Name = identity.Name.Trim(), Address = identity.Address.Trim(), Contact = identity.Contact.Trim(), TimeZone = identity.TimeZone, PublicAddress = identity.PublicAddress.TrimEnd('/'), Demonstration = demonstration,
        });
        scope.About("Laboratory", LaboratorySettings.OnlyId, identity.Name.Trim());
        return await Accounts.AddAsync(scope, administrator with { Roles = [Role.Administrator], Identity = administrator.Identity ?? new IdentitySeen("Whoever started the program", "By the set-up link, which only the console of the server showed", DateOnly.FromDateTime(scope.Now.UtcDateTime)) }, hasher, cancellation);
    }

    private static async Task RefuseSecondTimeAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        if (await data.Set<LaboratorySettings>().AnyAsync(cancellation))
        {
            throw new RefusedException("set-up-done", "This laboratory is set up already. Sign on instead.");
        }
    }
}

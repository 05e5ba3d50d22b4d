using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using OtpNet;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>A key for an authenticator, shown once.</summary>
/// <param name="Key">In Base32, for typing.</param>
/// <param name="Address">The address that the authenticator scans.</param>
public sealed record CodeKeyMade(string Key, string Address);

/// <summary>What second factors a person has.</summary>
/// <param name="CodesSince">Since when one-time codes are asked for; null when they are not.</param>
/// <param name="RecoveryCodesLeft">How many recovery codes are good.</param>
/// <param name="Passkeys">The passkeys, the newest first.</param>
public sealed record SecondFactorsHeld(DateTimeOffset? CodesSince, int RecoveryCodesLeft, IReadOnlyList<PasskeyRow> Passkeys)
{
    /// <summary>Whether there is any.</summary>
    public bool Any => CodesSince is not null || Passkeys.Any(passkey => passkey.RevokedAt is null);
}

/// <summary>What is demanded, with its version for a change.</summary>
public sealed record SecondFactorDemand(bool ForDecisions, long Version);

/// <summary>Setting up one-time codes, taking second factors away, and what the laboratory demands.</summary>
public sealed class SecondFactors(WritePath writing, ReadPath reading, SecondStep second, ISecretSealing sealing)
{
    private static readonly DeedKind MakeDeed = new("people.make-code-key", "Key for one-time codes made", null);
    private static readonly DeedKind ConfirmDeed = new("people.confirm-code-key", "One-time codes switched on", null);
    private static readonly DeedKind RemoveDeed = new("people.remove-code-key", "One-time codes switched off", null);
    private static readonly DeedKind RecoveryDeed = new("people.renew-recovery-codes", "Recovery codes made anew", null);
    private static readonly DeedKind TakeAwayDeed = new("people.take-away-second-factors", "Second factors taken away", Permission.KeepPeople, ReasonRequired: true);
    private static readonly DeedKind DemandDeed = new("people.demand-second-factor", "Second factor for decisions switched", Permission.KeepSettings, ReasonRequired: true);

    /// <summary>What the actor has.</summary>
    public async Task<SecondFactorsHeld> MineAsync(Actor actor, CancellationToken cancellation)
    {
        var person = (await reading.StandingOfAsync(actor, cancellation)).PersonId ?? Guid.Empty;
        return await reading.ReadOpenlyAsync((data, token) => HeldAsync(data, person, token), cancellation);
    }

    /// <summary>What somebody has, for the administrator.</summary>
    public Task<SecondFactorsHeld> OfPersonAsync(Actor actor, Guid personId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepPeople, (data, _, token) => HeldAsync(data, personId, token), cancellation);

    /// <summary>Makes a key for the actor's authenticator. It is not asked for until a first code has proved that it arrived.</summary>
    public Task<CodeKeyMade> MakeCodeKeyAsync(Actor actor, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(MakeDeed, actor), async (scope, token) =>
        {
            var person = await OwnAsync(scope, proof, token);
            if (await scope.Data.Set<OneTimeCodeKey>().AnyAsync(key => key.PersonId == person.Id && key.ConfirmedAt != null && key.RemovedAt == null, token))
            {
                throw new RefusedException("codes-on", "One-time codes are on already. Switch them off first to use another authenticator.");
            }

            await RemoveKeysAsync(scope, person.Id, token);
            var key = Base32Encoding.ToString(RandomNumberGenerator.GetBytes(OneTimeCodeKey.KeyBytes));
            scope.Data.Add(new OneTimeCodeKey { Id = scope.NewId(), PersonId = person.Id, SealedKey = sealing.Seal(key), MadeAt = scope.Now });
            return new CodeKeyMade(key, new OtpUri(OtpType.Totp, key, person.UserName!, "ParticleLims").ToString());
        }, cancellation);

    /// <summary>Switches one-time codes on, once a code has proved that the authenticator holds the key. Answers the recovery codes, once.</summary>
    /// <exception cref="RefusedException">There is no key that waits, or the code is not its.</exception>
    public Task<IReadOnlyList<string>> ConfirmCodeKeyAsync(Actor actor, string code, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ConfirmDeed, actor), async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(code);
            var id = scope.PersonId;
            var key = await scope.Data.Set<OneTimeCodeKey>().FirstOrDefaultAsync(one => one.PersonId == id && one.ConfirmedAt == null && one.RemovedAt == null, token)
                ?? throw new RefusedException("no-code-key", "There is no key that waits for its first code. Begin again.", "code");
            key.LastStep = second.StepOf(key, code, scope.Now) ?? throw new RefusedException("code-wrong", "This is not the code that the authenticator shows now. Look whether its clock is right, and give the next one.", "code");
            key.ConfirmedAt = scope.Now;
            scope.About("Person", id, scope.By.Name);
            return await NewRecoveryCodesAsync(scope, id, token);
        }, cancellation);

    /// <summary>Makes the actor's recovery codes anew; earlier ones are good no more.</summary>
    public Task<IReadOnlyList<string>> RenewRecoveryCodesAsync(Actor actor, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RecoveryDeed, actor), async (scope, token) =>
        {
            var person = await OwnAsync(scope, proof, token);
            if (!(await HeldAsync(scope.Data, person.Id, token)).Any)
            {
                throw new RefusedException("no-second-factor", "Recovery codes are for the day on which a second factor is lost: set one up first.");
            }

            return await NewRecoveryCodesAsync(scope, person.Id, token);
        }, cancellation);

    /// <summary>Switches the actor's one-time codes off.</summary>
    public Task<bool> RemoveCodeKeyAsync(Actor actor, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RemoveDeed, actor), async (scope, token) =>
        {
            var person = await OwnAsync(scope, proof, token);
            await RemoveKeysAsync(scope, person.Id, token);
            if (!await scope.Data.Set<Passkey>().AnyAsync(passkey => passkey.PersonId == person.Id && passkey.RevokedAt == null, token))
            {
                await RemoveRecoveryCodesAsync(scope, person.Id, token);
            }

            return true;
        }, cancellation);

    /// <summary>Takes every second factor of a person away, because a device was lost; the person's sessions end at once.</summary>
    public Task<bool> TakeAwayAsync(Actor actor, Guid personId, string reason, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(TakeAwayDeed, actor, Reason: reason), async (scope, token) =>
        {
            var person = await scope.FindAsync<Person>(personId, "person", token);
            scope.About("Person", person.Id, person.FullName);
            if (person.Id == scope.PersonId)
            {
                throw new RefusedException("own-account", "Your own second factors are under Your account.");
            }

            await RemoveKeysAsync(scope, person.Id, token);
            await RemoveRecoveryCodesAsync(scope, person.Id, token);
            foreach (var passkey in await scope.Data.Set<Passkey>().Where(one => one.PersonId == person.Id && one.RevokedAt == null).ToListAsync(token))
            {
                passkey.RevokedAt = scope.Now;
            }

            person.SecurityStamp = Accounts.NewStamp();
            return true;
        }, cancellation);

    /// <summary>What is demanded. Anybody may know.</summary>
    public Task<SecondFactorDemand> DemandAsync(CancellationToken cancellation) =>
        reading.ReadOpenlyAsync(async (data, token) => await data.Set<SignOnRules>().FirstOrDefaultAsync(rules => rules.Id == SignOnRules.OnlyId, token) is { } rules ? new SecondFactorDemand(rules.SecondFactorForDecisions, rules.Version) : new SecondFactorDemand(false, 0), cancellation);

    /// <summary>Demands a second factor for deciding, certificates, approving and administration, or ends that.</summary>
    /// <exception cref="RefusedException">Whoever switches it on has to have signed on with one: the laboratory would be left without anybody who may decide.</exception>
    public Task<bool> ChangeDemandAsync(Actor actor, bool forDecisions, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(DemandDeed, actor, Reason: reason), async (scope, token) =>
        {
            var rules = await scope.Data.Set<SignOnRules>().FirstOrDefaultAsync(one => one.Id == SignOnRules.OnlyId, token);
            if (rules is null)
            {
                rules = new SignOnRules();
                scope.Data.Add(rules);
            }

            DeedScope.RequireVersion(rules, version, "What is demanded");
            if (forDecisions && !await IsSecondAsync(scope, token))
            {
                throw new RefusedException("own-second-factor", "Set up a second factor under Your account first and sign on with it; then demand it of the others.");
            }

            rules.SecondFactorForDecisions = forDecisions;
            scope.About("SignOnRules", rules.Id, "Second factor");
            return true;
        }, cancellation);

    /// <summary>The person whose proof it is, within a running deed; the proof is used up.</summary>
    internal static async Task<Person> OwnAsync(DeedScope scope, SecretProof proof, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(proof);
        if (proof.Used || proof.PersonId != scope.PersonId)
        {
            throw new RefusedException("secret-not-proved", "Give your password again.", "password");
        }

        proof.Used = true;
        var person = await scope.FindAsync<Person>(scope.PersonId, "person", cancellation);
        scope.About("Person", person.Id, person.FullName);
        return person;
    }

    /// <summary>Recovery codes for somebody who has none yet; else nothing.</summary>
    internal static async Task<IReadOnlyList<string>> FirstRecoveryCodesAsync(DeedScope scope, Guid person, CancellationToken cancellation) =>
        await scope.Data.Set<RecoveryCode>().AnyAsync(code => code.PersonId == person && code.UsedAt == null && code.RemovedAt == null, cancellation) ? [] : await NewRecoveryCodesAsync(scope, person, cancellation);

    private static async Task<bool> IsSecondAsync(DeedScope scope, CancellationToken cancellation) =>
        scope.Deed.By.SessionId is { } id && (await scope.FindAsync<Session>(id, "session", cancellation)).Way.HasSecondFactor();

    private static async Task<SecondFactorsHeld> HeldAsync(LaboratoryContext data, Guid person, CancellationToken cancellation) => new(
        await data.Set<OneTimeCodeKey>().Where(key => key.PersonId == person && key.ConfirmedAt != null && key.RemovedAt == null).Select(key => key.ConfirmedAt).FirstOrDefaultAsync(cancellation),
        await data.Set<RecoveryCode>().CountAsync(code => code.PersonId == person && code.UsedAt == null && code.RemovedAt == null, cancellation),
        await data.Set<Passkey>().Where(passkey => passkey.PersonId == person).OrderByDescending(passkey => passkey.MadeAt)
            .Select(passkey => new PasskeyRow(passkey.Id, passkey.Name, passkey.MadeAt, passkey.LastUsedAt, passkey.BackedUp, passkey.RevokedAt)).ToListAsync(cancellation));

    private static async Task<IReadOnlyList<string>> NewRecoveryCodesAsync(DeedScope scope, Guid person, CancellationToken cancellation)
    {
        await RemoveRecoveryCodesAsync(scope, person, cancellation);
        var codes = Enumerable.Range(0, RecoveryCode.AtOnce).Select(_ => ShortCode.Random(RecoveryCode.Letters)).ToList();
        scope.Data.AddRange(codes.Select(code => new RecoveryCode { Id = scope.NewId(), PersonId = person, CodeHash = SecondStep.HashOf(code), MadeAt = scope.Now }));
        return codes;
    }

    private static async Task RemoveRecoveryCodesAsync(DeedScope scope, Guid person, CancellationToken cancellation)
    {
        foreach (var code in await scope.Data.Set<RecoveryCode>().Where(one => one.PersonId == person && one.UsedAt == null && one.RemovedAt == null).ToListAsync(cancellation))
        {
            code.RemovedAt = scope.Now;
        }
    }

    private static async Task RemoveKeysAsync(DeedScope scope, Guid person, CancellationToken cancellation)
    {
        foreach (var key in await scope.Data.Set<OneTimeCodeKey>().Where(one => one.PersonId == person && one.RemovedAt == null).ToListAsync(cancellation))
        {
            key.RemovedAt = scope.Now;
        }
    }
}

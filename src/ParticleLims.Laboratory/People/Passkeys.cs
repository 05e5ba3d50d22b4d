using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>A passkey as its owner's list shows it.</summary>
public sealed record PasskeyRow(Guid Id, string Name, DateTimeOffset MadeAt, DateTimeOffset? LastUsedAt, bool BackedUp, DateTimeOffset? RevokedAt);

/// <summary>A question to a browser.</summary>
/// <param name="Handle">Under which the answer is given, once and within minutes.</param>
/// <param name="Options">For the browser, as JSON.</param>
public sealed record PasskeyQuestion(string Handle, string Options);

/// <summary>Adds and removes passkeys, signs on with one, and takes one for a signature instead of the password.</summary>
public sealed class Passkeys(WritePath writing, ReadPath reading, SecretTries tries, IPasskeyCeremony ceremony, TimeProvider clock)
{
    /// <summary>More a person does not need.</summary>
    public const int Most = 10;

    private static readonly DeedKind AskDeed = new("people.ask-passkey", "New passkey asked for", null);
    private static readonly DeedKind AddDeed = new("people.add-passkey", "Passkey added", null);
    private static readonly DeedKind RemoveDeed = new("people.remove-passkey", "Passkey removed", null);
    private static readonly DeedKind SignOnDeed = new("people.sign-on-with-passkey", "Signed on with a passkey", null);
    private static readonly DeedKind UsedDeed = new("people.passkey-used", "Passkey used for a signature", null);
    private readonly OneUse<Asked> asked = new(clock, TimeSpan.FromMinutes(5));

    /// <summary>Asks the actor's browser for a new passkey, over the password.</summary>
    public Task<PasskeyQuestion> AskNewAsync(Actor actor, SecretProof proof, PasskeyPlace place, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AskDeed, actor), async (scope, token) =>
        {
            var person = await SecondFactors.OwnAsync(scope, proof, token);
            var has = await scope.Data.Set<Passkey>().Where(passkey => passkey.PersonId == person.Id && passkey.RevokedAt == null).ToListAsync(token);
            if (has.Count >= Most)
            {
                throw new RefusedException("passkeys-full", FormattableString.Invariant($"You have {Most} passkeys. Remove one that you do not use first."));
            }

            var question = await ceremony.AskNewAsync(place, person, has);
            return new PasskeyQuestion(asked.Keep(new Asked(place, question.State, person.Id)), question.Options);
        }, cancellation);

    /// <summary>Adds the passkey that the browser made. Answers recovery codes, once, when it is the first second factor; else none.</summary>
    /// <param name="actor">Whose it is.</param>
    /// <param name="answer">The browser's answer to the question.</param>
    /// <param name="name">What its owner calls it.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">The question is too old or was answered before; or the answer is none to it.</exception>
    public Task<IReadOnlyList<string>> AddAsync(Actor actor, GivenPasskey answer, string name, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor), async (scope, token) =>
        {
            ArgumentNullException.ThrowIfNull(answer);
            ArgumentNullException.ThrowIfNull(name);
            var (id, called) = (scope.PersonId, name.Trim());
            var question = Take(answer.Handle);
            if (called.Length is < 2 or > 60)
            {
                throw new RefusedException("passkey-name", "Give the passkey a name of 2 to 60 letters, for example the device on which it lies.", "name");
            }

            var person = await scope.FindAsync<Person>(id, "person", token);
            if (question.PersonId != person.Id || await ceremony.NewAsync(question.Place, person, question.State, answer.Answer) is not { } made
                || await scope.Data.Set<Passkey>().AnyAsync(passkey => passkey.CredentialId == made.CredentialId, token))
            {
                throw Wrong();
            }

            scope.Data.Add(new Passkey
            {
                Id = scope.NewId(), PersonId = person.Id, Name = called, CredentialId = made.CredentialId, PublicKey = made.PublicKey, SignCount = made.SignCount, Transports = made.Transports,
                BackupEligible = made.BackupEligible, BackedUp = made.BackedUp, MadeAt = scope.Now,
            });
            scope.About("Person", person.Id, $"{person.FullName}, passkey {called}");
            return await SecondFactors.FirstRecoveryCodesAsync(scope, person.Id, token);
        }, cancellation);

    /// <summary>Removes one of the actor's passkeys, over the password.</summary>
    public Task<bool> RemoveAsync(Actor actor, SecretProof proof, Guid passkeyId, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RemoveDeed, actor), async (scope, token) =>
        {
            var person = await SecondFactors.OwnAsync(scope, proof, token);
            var passkey = await scope.FindAsync<Passkey>(passkeyId, "passkey", token);
            if (passkey.PersonId != person.Id)
            {
                throw new RefusedException("not-found", "There is no such passkey of yours.");
            }

            passkey.RevokedAt ??= scope.Now;
            return true;
        }, cancellation);

    /// <summary>Whether the actor has a passkey to sign with.</summary>
    public async Task<bool> HasAsync(Actor actor, CancellationToken cancellation)
    {
        var person = (await reading.StandingOfAsync(actor, cancellation)).PersonId;
        return await reading.ReadOpenlyAsync((data, token) => data.Set<Passkey>().AnyAsync(passkey => passkey.PersonId == person && passkey.RevokedAt == null, token), cancellation);
    }

    /// <summary>Asks a browser for any passkey, to sign on. The same question for everybody: it tells nothing about who has an account.</summary>
    public async Task<PasskeyQuestion> AskAsync(PasskeyPlace place, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var question = await ceremony.AskAsync(place, null, []);
        return new PasskeyQuestion(asked.Keep(new Asked(place, question.State, null)), question.Options);
    }

    /// <summary>Asks the actor's browser for one of the actor's passkeys, to sign with; null when there is none.</summary>
    public async Task<PasskeyQuestion?> AskOwnAsync(Actor actor, PasskeyPlace place, CancellationToken cancellation)
    {
        var id = (await reading.StandingOfAsync(actor, cancellation)).PersonId;
        var (person, has) = await reading.ReadOpenlyAsync(async (data, token) => (
            await data.Set<Person>().FirstOrDefaultAsync(one => one.Id == id, token), await data.Set<Passkey>().Where(passkey => passkey.PersonId == id && passkey.RevokedAt == null).ToListAsync(token)), cancellation);
        if (person is null || has.Count == 0)
        {
            return null;
        }

        var question = await ceremony.AskAsync(place, person, has);
        return new PasskeyQuestion(asked.Keep(new Asked(place, question.State, person.Id)), question.Options);
    }

    /// <summary>Signs on with a passkey. Whoever was signed on in the same browser is not any more.</summary>
    /// <exception cref="RefusedException">The question is too old, or the answer is not a passkey in use.</exception>
    public async Task<SignedOn> SignOnAsync(GivenPasskey answer, TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(at);
        var (person, passkey, facts) = await CheckAsync(answer, null, SecretPlace.At(at), cancellation);
        return await writing.CarryOutAsync(new Deed(SignOnDeed, new Actor(person.Id, at.Name)), async (scope, token) =>
        {
            var found = await scope.FindAsync<Person>(person.Id, "person", token);
            await NoteUseAsync(scope, passkey, facts, token);
            await SecretTries.ForgetAsync(scope, found.Id, token);
            scope.About("Person", found.Id, found.FullName);
            return await SessionOpening.OpenAsync(scope, found, at, SignOnWay.Passkey, null, token);
        }, cancellation);
    }

    /// <summary>The actor, who has just answered with an own passkey.</summary>
    internal async Task<Person> OwnAsync(Actor actor, GivenPasskey answer, CancellationToken cancellation)
    {
        var (person, passkey, facts) = await CheckAsync(answer, actor.PersonId ?? Guid.Empty, SecretPlace.Of(actor), cancellation);
        await writing.CarryOutAsync(new Deed(UsedDeed, actor), async (scope, token) =>
        {
            await NoteUseAsync(scope, passkey, facts, token);
            scope.About("Person", person.Id, person.FullName);
            return true;
        }, cancellation);
        return person;
    }

    private async Task<(Person Person, Guid Passkey, PasskeyFacts Facts)> CheckAsync(GivenPasskey answer, Guid? own, SecretPlace place, CancellationToken cancellation)
    {
        var question = Take(answer.Handle);
        var passkey = ceremony.Named(answer.Answer) is { } named
            ? await reading.ReadOpenlyAsync((data, token) => data.Set<Passkey>().FirstOrDefaultAsync(one => one.CredentialId == named && one.RevokedAt == null, token), cancellation) : null;
        var (owner, facts) = (passkey?.PersonId ?? Guid.Empty, (PasskeyFacts?)null);
        var person = await tries.CompareAsync(
            person => person.Id == owner,
            async (person, _) =>
            {
                facts = person is null || question.PersonId != own || (own is not null && own != person.Id) ? null : await ceremony.CheckAsync(question.Place, person, passkey!, question.State, answer.Answer);
                return facts is not null;
            },
            "passkey", place.ForPasskey(), Wrong(), cancellation);
        return (person, passkey!.Id, facts!);
    }

    // Asked again in the transaction: it may have been revoked, or answered elsewhere by a copy.
    private static async Task NoteUseAsync(DeedScope scope, Guid passkeyId, PasskeyFacts facts, CancellationToken cancellation)
    {
        var passkey = await scope.FindAsync<Passkey>(passkeyId, "passkey", cancellation);
        if (passkey.RevokedAt is not null || (facts.SignCount <= passkey.SignCount && (facts.SignCount, passkey.SignCount) != (0, 0)))
        {
            throw Wrong();
        }

        (passkey.SignCount, passkey.BackedUp, passkey.LastUsedAt) = (facts.SignCount, facts.BackedUp, scope.Now);
    }

    private Asked Take(string handle) => asked.Take(handle) ?? throw new RefusedException("passkey-old", "The question to your passkey is too old or was answered before. Ask again.", "passkey");

    private static RefusedException Wrong() => new("passkey-wrong", "This is no passkey that is in use here. Give your password, or try another passkey.", "passkey");

    private sealed record Asked(PasskeyPlace Place, string State, Guid? PersonId);
}

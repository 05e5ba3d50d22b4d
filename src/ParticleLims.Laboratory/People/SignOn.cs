using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>The password was right and a second factor is set up: the one-time code is still missing.</summary>
/// <param name="handle">Under which the second step goes on.</param>
public sealed class SecondStepException(string handle) : RefusedException("second-step", "Give the code of your authenticator too.", "code")
{
    /// <summary>Under which the second step goes on, for a few minutes.</summary>
    public string Handle { get; } = handle;
}

/// <summary>Signing on by name and password, and giving the password or a passkey again for a signature.</summary>
public sealed class SignOn(WritePath writing, SecretTries tries, SecondStep second, Passkeys passkeys, ISigningGround ground) : ISecretCheck
{
    private static readonly DeedKind SignOnDeed = new("people.sign-on", "Signed on", null);
    private static readonly DeedKind SignOffDeed = new("people.sign-off", "Signed off", null);
    private static readonly DeedKind ForgottenDeed = new("people.wrong-tries-forgotten", "Right password after wrong ones", null);

    /// <summary>Signs on by name and password. Whoever was signed on in the same browser is not any more.</summary>
    /// <exception cref="SecondStepException">The password is right and a second factor is set up.</exception>
    /// <exception cref="RefusedException">The same words for an unknown name and for a wrong password; or "wait".</exception>
    public async Task<SignedOn> SignOnAsync(string signOnName, string password, TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(signOnName);
        ArgumentNullException.ThrowIfNull(password);
        ArgumentNullException.ThrowIfNull(at);
        var normal = Normal(signOnName);
        var person = await tries.PasswordAsync(person => person.NormalizedUserName == normal, password, signOnName, SecretPlace.At(at), cancellation);
        if (await second.BeginAsync(person.Id, cancellation) is { } handle)
        {
            throw new SecondStepException(handle);
        }

        return await writing.CarryOutAsync(new Deed(SignOnDeed, new Actor(person.Id, at.Name)), async (scope, token) =>
        {
            var found = await scope.FindAsync<Person>(person.Id, "person", token);
            await SecretTries.ForgetAsync(scope, found.Id, token);
            scope.About("Person", found.Id, found.FullName);
            return await SessionOpening.OpenAsync(scope, found, at, SignOnWay.Password, null, token);
        }, cancellation);
    }

    /// <summary>Ends the session and leaves the sign-off in the record.</summary>
    public Task<bool> SignOffAsync(Actor actor, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SignOffDeed, actor), async (scope, token) =>
        {
            await SessionOpening.EndAsync(scope, SessionEnd.SignedOff, token);
            return true;
        }, cancellation);

    /// <inheritdoc />
    public async Task<SecretProof> ProveAsync(Actor actor, GivenSecret given, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(actor);
        ArgumentNullException.ThrowIfNull(given);
        var person = given is GivenPasskey answer ? await passkeys.OwnAsync(actor, answer, cancellation)
            : await tries.PasswordAsync(person => person.Id == actor.PersonId, ((GivenPassword)given).Password, "password for a signature", SecretPlace.Of(actor), cancellation);
        return await ProvedAsync(person, actor, cancellation);
    }

    /// <inheritdoc />
    public async Task<SecretProof> ProveOtherAsync(string signOnName, string password, Actor here, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(signOnName);
        ArgumentNullException.ThrowIfNull(password);
        ArgumentNullException.ThrowIfNull(here);
        var normal = Normal(signOnName);
        var person = await tries.PasswordAsync(person => person.NormalizedUserName == normal, password, signOnName, SecretPlace.Of(here), cancellation);
        return await ProvedAsync(person, new Actor(person.Id, here.Terminal), cancellation);
    }

    private async Task<SecretProof> ProvedAsync(Person person, Actor actor, CancellationToken cancellation)
    {
        if (await tries.AnyAsync(person.Id, cancellation))
        {
            await writing.CarryOutAsync(new Deed(ForgottenDeed, actor), async (scope, token) =>
            {
                await SecretTries.ForgetAsync(scope, person.Id, token);
                scope.About("Person", person.Id, person.FullName);
                return true;
            }, cancellation);
        }

        return new SecretProof(person.Id) { NotYet = await ground.NotYetAsync(person.Id, cancellation) };
    }

    /// <summary>A sign-on name as it is compared.</summary>
    public static string Normal(string signOnName) => signOnName.Trim().ToUpperInvariant();
}

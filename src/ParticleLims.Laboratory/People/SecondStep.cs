using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>The second step of signing on: the code of the authenticator, or a recovery code. It follows a right password and cannot be taken without one.</summary>
public sealed class SecondStep(WritePath writing, ReadPath reading, SecretTries tries, ISecretSealing sealing, TimeProvider clock)
{
    private static readonly DeedKind SignOnDeed = new("people.sign-on-with-code", "Signed on with a second factor", null);
    private static readonly RefusedException Wrong = new("code-wrong", "This code is wrong, was used before, or its time is over. Wait for the next one.", "code");
    private readonly OneUse<Waiting> waiting = new(clock, TimeSpan.FromMinutes(5));

    /// <summary>Signs on with the code that was still missing. Whoever was signed on in the same browser is not any more.</summary>
    /// <param name="handle">Of the first step.</param>
    /// <param name="code">Six digits of the authenticator, or a recovery code.</param>
    /// <param name="at">The browser.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">The first step is missing or too long ago, or the code is wrong; wrong ones are counted with wrong passwords.</exception>
    public async Task<SignedOn> FinishAsync(string handle, string code, TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(handle);
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(at);
        var begun = waiting.Find(handle) ?? throw new RefusedException("first-step-missing", "The first step is too long ago. Sign on with your name and password again.", "password");
        var person = await tries.CompareAsync(
            person => person.Id == begun.PersonId, async (person, token) => person is not null && person.SecurityStamp == begun.Stamp && await IsRightAsync(person.Id, code, token),
            "one-time code", SecretPlace.At(at), Wrong, cancellation);
        var signedOn = await writing.CarryOutAsync(new Deed(SignOnDeed, new Actor(person.Id, at.Name)), async (scope, token) =>
        {
            var found = await scope.FindAsync<Person>(person.Id, "person", token);
            await UseAsync(scope, code, token);
            await SecretTries.ForgetAsync(scope, found.Id, token);
            scope.About("Person", found.Id, found.FullName);
            return await SessionOpening.OpenAsync(scope, found, at, SignOnWay.PasswordAndCode, null, token);
        }, cancellation);
        waiting.Take(handle);
        return signedOn;
    }

    /// <summary>Whether a person has more to give than the password; then the handle of the step that is still missing.</summary>
    internal async Task<string?> BeginAsync(Guid personId, CancellationToken cancellation)
    {
        var stamp = await reading.ReadOpenlyAsync((data, token) => data.Set<Person>().Where(person => person.Id == personId
            && (data.Set<OneTimeCodeKey>().Any(key => key.PersonId == person.Id && key.ConfirmedAt != null && key.RemovedAt == null) || data.Set<Passkey>().Any(passkey => passkey.PersonId == person.Id && passkey.RevokedAt == null)))
            .Select(person => person.SecurityStamp).FirstOrDefaultAsync(token), cancellation);
        return stamp is null ? null : waiting.Keep(new Waiting(personId, stamp));
    }

    private Task<bool> IsRightAsync(Guid personId, string code, CancellationToken cancellation) => reading.ReadOpenlyAsync(async (data, token) =>
    {
        var recovery = HashOf(code);
        return await data.Set<RecoveryCode>().AnyAsync(one => one.PersonId == personId && one.CodeHash == recovery && one.UsedAt == null && one.RemovedAt == null, token)
            || await data.Set<OneTimeCodeKey>().FirstOrDefaultAsync(key => key.PersonId == personId && key.ConfirmedAt != null && key.RemovedAt == null, token) is { } key && StepOf(key, code, clock.GetUtcNow()) is not null;
    }, cancellation);

    // Asked again in the transaction: of two who give the same code at once only one signs on.
    private async Task UseAsync(DeedScope scope, string code, CancellationToken cancellation)
    {
        var (person, recovery) = (scope.PersonId, HashOf(code));
        if (await scope.Data.Set<RecoveryCode>().FirstOrDefaultAsync(one => one.PersonId == person && one.CodeHash == recovery && one.UsedAt == null && one.RemovedAt == null, cancellation) is { } used)
        {
            used.UsedAt = scope.Now;
            return;
        }

        var key = await scope.Data.Set<OneTimeCodeKey>().FirstOrDefaultAsync(one => one.PersonId == person && one.ConfirmedAt != null && one.RemovedAt == null, cancellation);
        key!.LastStep = StepOf(key, code, scope.Now) ?? throw Wrong;
    }

    /// <summary>The time step of a code; null when it is wrong or was used.</summary>
    internal long? StepOf(OneTimeCodeKey key, string code, DateTimeOffset now) =>
        sealing.Open(key.SealedKey) is { } secret ? key.StepOf(secret, string.Concat(code.Where(char.IsAsciiDigit)), now) : null;

    /// <summary>A recovery code as it is stored.</summary>
    internal static string HashOf(string code) => RecordChain.HashOf($"recovery {ShortCode.Normal(code)}");

    private sealed record Waiting(Guid PersonId, string Stamp);
}

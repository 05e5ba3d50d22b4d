using Microsoft.AspNetCore.Identity;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.People;

/// <summary>What the framework's check of passkeys may know: one person and their passkeys. It stores nothing; that is a deed.</summary>
internal sealed class PasskeyOwner(Person? person, IReadOnlyList<Passkey> passkeys) : IUserPasskeyStore<Person>
{
    public Task<string> GetUserIdAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.Id.ToString("D"));

    public Task<string?> GetUserNameAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.UserName);

    public Task<string?> GetNormalizedUserNameAsync(Person user, CancellationToken cancellationToken) => Task.FromResult(user.NormalizedUserName);

    public Task<Person?> FindByIdAsync(string userId, CancellationToken cancellationToken) => Task.FromResult(person?.Id.ToString("D") == userId ? person : null);

    public Task<Person?> FindByNameAsync(string normalizedUserName, CancellationToken cancellationToken) => Task.FromResult(person?.NormalizedUserName == normalizedUserName ? person : null);

    public Task<IList<UserPasskeyInfo>> GetPasskeysAsync(Person user, CancellationToken cancellationToken) => Task.FromResult<IList<UserPasskeyInfo>>([.. passkeys.Select(Info)]);

    public Task<Person?> FindByPasskeyIdAsync(byte[] credentialId, CancellationToken cancellationToken) => Task.FromResult(Find(credentialId) is null ? null : person);

    public Task<UserPasskeyInfo?> FindPasskeyAsync(Person user, byte[] credentialId, CancellationToken cancellationToken) => Task.FromResult(Find(credentialId) is { } found ? Info(found) : null);

    public Task SetUserNameAsync(Person user, string? userName, CancellationToken cancellationToken) => throw NotStored();

    public Task SetNormalizedUserNameAsync(Person user, string? normalizedName, CancellationToken cancellationToken) => throw NotStored();

    public Task<IdentityResult> CreateAsync(Person user, CancellationToken cancellationToken) => throw NotStored();

    public Task<IdentityResult> UpdateAsync(Person user, CancellationToken cancellationToken) => throw NotStored();

    public Task<IdentityResult> DeleteAsync(Person user, CancellationToken cancellationToken) => throw NotStored();

    public Task AddOrUpdatePasskeyAsync(Person user, UserPasskeyInfo passkey, CancellationToken cancellationToken) => throw NotStored();

    public Task RemovePasskeyAsync(Person user, byte[] credentialId, CancellationToken cancellationToken) => throw NotStored();

    public void Dispose()
    {
    }

    private Passkey? Find(byte[] credentialId) => passkeys.FirstOrDefault(passkey => passkey.CredentialId.AsSpan().SequenceEqual(credentialId));

    // A passkey is taken in only after its device has verified the person, so that it did.
    private static UserPasskeyInfo Info(Passkey passkey) => new(
        passkey.CredentialId, passkey.PublicKey, passkey.MadeAt, (uint)passkey.SignCount, passkey.Transports.Length == 0 ? null : passkey.Transports.Split(','), isUserVerified: true, passkey.BackupEligible, passkey.BackedUp, attestationObject: [], clientDataJson: []);

    private static NotSupportedException NotStored() => new("People and passkeys are changed by deeds of the laboratory.");
}

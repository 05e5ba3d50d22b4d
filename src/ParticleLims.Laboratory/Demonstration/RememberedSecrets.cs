using Microsoft.AspNetCore.Identity;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>
/// Hashes as the laboratory does, and remembers which secret a hash was made of, so that a year of signatures need not wait for the slow
/// function each time. It lives only while the history is made.
/// </summary>
internal sealed class RememberedSecrets(IPasswordHasher<Person> hasher) : IPasswordHasher<Person>
{
    private static readonly Person Nobody = new() { FullName = "nobody", UserName = "nobody" };
    private readonly Dictionary<string, Lazy<string>> hashOf = new(StringComparer.Ordinal);

    /// <summary>Begins to hash the secrets on a thread of its own, in this order; one that is wanted before its turn is hashed by who wants it.</summary>
    public void Begin(IEnumerable<string> secrets)
    {
        foreach (var secret in secrets)
        {
            hashOf[secret] = new Lazy<string>(() => hasher.HashPassword(Nobody, secret));
        }

        Lazy<string>[] begun = [.. hashOf.Values];
        new Thread(() => Array.ForEach(begun, hash => _ = hash.Value)) { IsBackground = true, Name = "demonstration secrets" }.Start();
    }

    /// <inheritdoc />
    public string HashPassword(Person user, string password) => hashOf.TryGetValue(password, out var hash) ? hash.Value : hasher.HashPassword(user, password);

    /// <inheritdoc />
    public PasswordVerificationResult VerifyHashedPassword(Person user, string hashedPassword, string providedPassword) =>
        hashOf.TryGetValue(providedPassword, out var hash) && hash.Value == hashedPassword
            ? PasswordVerificationResult.Success
            : hasher.VerifyHashedPassword(user, hashedPassword, providedPassword);
}

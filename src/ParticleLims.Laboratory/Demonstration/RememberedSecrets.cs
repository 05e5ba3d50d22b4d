using Microsoft.AspNetCore.Identity;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>
/// Hashes as the laboratory does, and remembers which secret a hash was made of, so that a year of signatures need not wait for the slow
/// function each time. It lives only while the history is made.
/// </summary>
internal sealed class RememberedSecrets(IPasswordHasher<Person> hasher) : IPasswordHasher<Person>
{
    private readonly Dictionary<string, string> hashOf = new(StringComparer.Ordinal);

    /// <summary>Hashes all secrets beforehand, as many at once as there are processors.</summary>
    public void Prepare(IEnumerable<string> secrets)
    {
        var nobody = new Person { FullName = "nobody", UserName = "nobody" };
        foreach (var (secret, hash) in secrets.AsParallel().Select(secret => (secret, hasher.HashPassword(nobody, secret))))
        {
            hashOf[secret] = hash;
        }
    }

    /// <inheritdoc />
    public string HashPassword(Person user, string password) => hashOf.TryGetValue(password, out var hash) ? hash : hasher.HashPassword(user, password);

    /// <inheritdoc />
    public PasswordVerificationResult VerifyHashedPassword(Person user, string hashedPassword, string providedPassword) =>
        hashOf.TryGetValue(providedPassword, out var hash) && hash == hashedPassword
            ? PasswordVerificationResult.Success
            : hasher.VerifyHashedPassword(user, hashedPassword, providedPassword);
}

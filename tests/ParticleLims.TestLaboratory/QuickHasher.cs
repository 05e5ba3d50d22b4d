using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ParticleLims.Laboratory.People;

namespace ParticleLims.TestLaboratory;

/// <summary>The real hashing is slow on purpose; tests of everything else need not wait for it.</summary>
public sealed class QuickHasher : IPasswordHasher<Person>
{
    private readonly PasswordHasher<Person> real = new(Options.Create(new PasswordHasherOptions { IterationCount = 1 }));

    /// <inheritdoc />
    public string HashPassword(Person user, string password) => real.HashPassword(user, password);

    /// <inheritdoc />
    public PasswordVerificationResult VerifyHashedPassword(Person user, string hashedPassword, string providedPassword) =>
        real.VerifyHashedPassword(user, hashedPassword, providedPassword);
}

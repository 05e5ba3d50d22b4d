using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>
/// What a password must be when it is the only factor: at least 15 characters, nothing guessable, no rules on composition
/// (NIST SP 800-63B-4, 3.1.1.2; OWASP ASVS 5.0, 6.2).
/// </summary>
public static class PasswordRules
{
    /// <summary>The fewest characters.</summary>
    public const int Shortest = 15;

    /// <summary>The most characters.</summary>
    public const int Longest = 128;

    private static readonly string[] Guessable = ["password", "passwort", "qwertyuiop", "1234567890", "letmein", "administrator", "laboratory", "particlelims", "iloveyou", "welcome"];

    /// <summary>Refuses a password in words.</summary>
    /// <exception cref="RefusedException">Too short, too long, or guessable.</exception>
    public static void Require(string password, string signOnName, string fullName)
    {
        ArgumentNullException.ThrowIfNull(password);
        if (password.Length is < Shortest or > Longest)
        {
            throw new RefusedException("password-length", $"A password has {Shortest} to {Longest} characters. Several words in a row are easy to remember and hard to guess.", "password");
        }

        if (password.Distinct().Count() < 6)
        {
            throw new RefusedException("password-guessable", "This password repeats too few different characters. Choose several unrelated words.", "password");
        }

        var words = Guessable.Append(signOnName).Concat(fullName.Split(' ')).Where(word => word.Length >= 4);
        if (words.FirstOrDefault(word => Covers(word, password)) is { } found)
        {
            throw new RefusedException("password-guessable", $"This password leans on “{found}”, which is among the first guesses. Choose several unrelated words.", "password");
        }
    }

    private static bool Covers(string word, string password) =>
        password.Contains(word, StringComparison.OrdinalIgnoreCase) && password.Replace(word, string.Empty, StringComparison.OrdinalIgnoreCase).Length < Shortest - 4;
}

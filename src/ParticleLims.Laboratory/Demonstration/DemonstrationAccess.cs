using System.Security.Cryptography;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>How to get into the demonstration laboratory. All secrets were made at random when it was.</summary>
/// <param name="CreatedAt">When it was made.</param>
/// <param name="People">Everybody with an account.</param>
/// <param name="ApiToken">A token with all scopes.</param>
/// <param name="ApiTokenSpeaksFor">The sign-on name of the person for whom it speaks.</param>
public sealed record DemonstrationAccess(DateTimeOffset CreatedAt, IReadOnlyList<DemonstrationPerson> People, string ApiToken, string ApiTokenSpeaksFor);

/// <summary>A person of the demonstration with the secrets in clear.</summary>
/// <param name="Key">The role and a number: <c>technician.1</c>.</param>
/// <param name="Role">The one role held.</param>
/// <param name="SignOnName">For signing on.</param>
/// <param name="FullName">As printed.</param>
/// <param name="Password">20 random characters in four groups.</param>
/// <param name="Pin">Six random digits, for shared terminals.</param>
/// <param name="Customer">For a customer's contact: whose.</param>
public sealed record DemonstrationPerson(string Key, Role Role, string SignOnName, string FullName, string Password, string Pin, string? Customer = null);

/// <summary>Secrets from the operating system's random numbers.</summary>
internal static class RandomSecrets
{
    /// <summary>Without letters and digits that look alike. 20 of 31 characters are 99 bits.</summary>
    private const string Characters = "abcdefghjkmnpqrstuvwxyz23456789";

    /// <summary>A password that the rules accept.</summary>
    public static string Password(string signOnName, string fullName)
    {
        while (true)
        {
            var password = string.Join('-', Enumerable.Range(0, 4).Select(_ => RandomNumberGenerator.GetString(Characters, 5)));
            if (IsAccepted(password, signOnName, fullName))
            {
                return password;
            }
        }
    }

    /// <summary>So many different PINs.</summary>
    public static IReadOnlyList<string> Pins(int count)
    {
        var pins = new HashSet<string>(StringComparer.Ordinal);
        while (pins.Count < count)
        {
            var pin = RandomNumberGenerator.GetString("0123456789", 6);
            if (!PinRules.IsGuessable(pin))
            {
                pins.Add(pin);
            }
        }

        return [.. pins];
    }

    private static bool IsAccepted(string password, string signOnName, string fullName)
    {
        try
        {
            PasswordRules.Require(password, signOnName, fullName);
            return true;
        }
        catch (RefusedException)
        {
            return false;
        }
    }
}

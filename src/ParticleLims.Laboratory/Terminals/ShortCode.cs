using System.Security.Cryptography;

namespace ParticleLims.Laboratory.Terminals;

/// <summary>
/// Codes that are scanned or typed. A scanner types by the positions of keys, so only letters are used that stand at the same place on
/// the usual Latin keyboards, and none that is taken for a digit.
/// </summary>
public static class ShortCode
{
    /// <summary>Eighteen letters: each is worth 4.17 bits.</summary>
    private const string Letters = "BCDEFGHJKLNPRSTUVX";

    /// <summary>So many random letters.</summary>
    public static string Random(int length) => RandomNumberGenerator.GetString(Letters, length);

    /// <summary>A code as it is compared, whatever the shift lock did and however it was grouped.</summary>
    public static string Normal(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return string.Concat(code.Where(char.IsAsciiLetter)).ToUpperInvariant();
    }
}

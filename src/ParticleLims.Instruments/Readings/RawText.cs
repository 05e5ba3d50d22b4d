using System.Globalization;
using System.Text;

namespace ParticleLims.Instruments.Readings;

/// <summary>Keeps a raw line in a shape that every database and screen can hold: a NUL, say, as <c>\x00</c>.</summary>
internal static class RawText
{
    // A line that is refused as too long is kept only so far: enough to see what it was.
    private const int MostCharactersKept = 600;

    public static bool IsPrintable(char character) => character is >= ' ' and <= '~';

    public static string Printable(string line)
    {
        var kept = line.Length > MostCharactersKept ? line[..MostCharactersKept] + "..." : line;
        if (kept.All(IsPrintable))
        {
            return kept;
        }

        var text = new StringBuilder(kept.Length + 16);
        foreach (var character in kept)
        {
            _ = IsPrintable(character)
                ? text.Append(character)
                : text.Append(CultureInfo.InvariantCulture, $"\\x{(int)character:X2}");
        }

        return text.ToString();
    }
}

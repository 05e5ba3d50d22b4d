using System.Globalization;
using System.Text;

namespace ParticleLims.Pictures.Svg;

/// <summary>Numbers and texts as SVG wants them, whatever the machine's culture.</summary>
internal static class SvgText
{
    /// <summary>A length with at most two decimals.</summary>
    public static string Number(double value)
    {
        var text = value.ToString("0.##", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    /// <summary>A text with markup escaped and characters that XML 1.0 forbids replaced.</summary>
    public static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length + 16);
        foreach (var rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '"' => escaped.Append("&quot;"),
                '\'' => escaped.Append("&#39;"),
                _ => escaped.Append(IsAllowed(rune) ? rune.ToString() : "\uFFFD"),
            };
        }

        return escaped.ToString();
    }

    private static bool IsAllowed(Rune rune) => rune.Value is '\t' or '\n' or '\r' or >= 0x20 and not (0xFFFE or 0xFFFF or (>= 0x7F and <= 0x9F));
}

using System.Globalization;
using System.Text;
using ParticleLims.CertificatePdf.Fonts;
using ParticleLims.Laboratory.Certificates.Texts;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Measures and breaks text; one for each document.</summary>
internal sealed class Typesetter(Paper paper, CertificateTexts texts) : IDisposable
{
    private const string BreakAfter = "/-_.";
    private static readonly HashSet<string> _units = new(StringComparer.Ordinal) { "%", "µm", "mm", "g", "mg", "kg", "s", "min", "h", "kPa", "Pa", "mbar", "inH2O", "°C" };

    private readonly Dictionary<(double, bool, bool), XFont> _fonts = [];
    private readonly Dictionary<(string, double, bool, bool), double> _widths = [];
    private readonly XGraphics _measure = XGraphics.CreateMeasureContext(new XSize(600, 850), XGraphicsUnit.Point, XPageDirection.Downwards);

    public Paper Paper => paper;

    /// <summary>The words of the document's language.</summary>
    public CertificateTexts Texts => texts;

    public XFont Font(Lettering lettering)
    {
        var key = (lettering.Size, lettering.Bold, lettering.Italic);
        if (!_fonts.TryGetValue(key, out var font))
        {
            var style = lettering.Bold ? XFontStyleEx.Bold : lettering.Italic ? XFontStyleEx.Italic : XFontStyleEx.Regular;
            font = new XFont(LatoFonts.Family, lettering.Size, style, new XPdfFontOptions(PdfFontEncoding.Unicode));
            _fonts.Add(key, font);
        }

        return font;
    }

    public double Width(string text, Lettering lettering)
    {
        var key = (text, lettering.Size, lettering.Bold, lettering.Italic);
        if (text.Length > 0 && !_widths.ContainsKey(key))
        {
            _widths.Add(key, _measure.MeasureString(text, Font(lettering)).Width);
        }

        return _widths.GetValueOrDefault(key);
    }

    /// <summary>The text in lines no wider than that: broken between words, and inside a word only where it is wider than a line.</summary>
    public IReadOnlyList<string> Wrap(string text, Lettering lettering, double width)
    {
        var lines = new List<string>();
        var line = string.Empty;
        var (reached, space) = (0d, Width(" ", lettering));
        foreach (var word in Words(text).SelectMany(word => Pieces(word, lettering, width)))
        {
            // No kerning is applied, so widths add up.
            var needed = reached + space + Width(word, lettering);
            if (line.Length > 0 && needed > width)
            {
                lines.Add(line);
                line = string.Empty;
            }

            reached = line.Length == 0 ? Width(word, lettering) : needed;
            line = line.Length == 0 ? word : line + " " + word;
        }

        lines.Add(line);
        return lines;
    }

    /// <summary>
    /// The text as it can stand on paper: letters composed with their accents, line breaks as spaces, and no invisible controls, which
    /// could turn the direction of what follows.
    /// </summary>
    public static string Printable(string text)
    {
        if (text.All(IsPlain))
        {
            return text;
        }

        var kept = new StringBuilder(text.Length);
        foreach (var rune in text.Normalize(NormalizationForm.FormC).EnumerateRunes())
        {
            _ = Rune.GetUnicodeCategory(rune) switch
            {
                UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator => kept.Append(' '),
                UnicodeCategory.Format => kept,
                _ => kept.Append(rune.Value == 0x2011 ? "-" : rune.ToString()),
            };
        }

        return kept.ToString();
    }

    public void Dispose() => _measure.Dispose();

    // Below U+0300 a letter alone is composed already (Unicode Standard Annex 15), and only these are controls or invisible.
    private static bool IsPlain(char letter) => letter is (>= ' ' and <= '~') or (>= '\u00A0' and < '\u0300' and not '\u00AD');

    /// <summary>The words, a number and its unit as one.</summary>
    private static List<string> Words(string text)
    {
        var words = new List<string>();
        foreach (var word in Printable(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (words.Count > 0 && char.IsAsciiDigit(words[^1][^1]) && _units.Contains(word.TrimEnd(',', ';', '.', ')', ':')))
            {
                words[^1] += " " + word;
            }
            else
            {
                words.Add(word);
            }
        }

        return words;
    }

    private IEnumerable<string> Pieces(string word, Lettering lettering, double width)
    {
        if (Width(word, lettering) <= width)
        {
            yield return word;
            yield break;
        }

        var piece = string.Empty;
        foreach (var rune in word.EnumerateRunes().Select(rune => rune.ToString()))
        {
            if (piece.Length > 0 && Width(piece + rune, lettering) > width)
            {
                var cut = Cut(piece);
                yield return piece[..cut];
                piece = piece[cut..];
            }

            piece += rune;
        }

        yield return piece;
    }

    // An address reads better broken behind one of its signs, where one stands in the second half of the line.
    private static int Cut(string piece)
    {
        var sign = piece.LastIndexOfAny([.. BreakAfter]);
        return sign >= piece.Length / 2 ? sign + 1 : piece.Length;
    }
}

using System.Globalization;
using System.Text;
using ZXing;
using ZXing.OneD;

namespace ParticleLims.Web.Labels;

/// <summary>A label code as a bar code (Code 128, ISO/IEC 15417), drawn as one SVG path, for scanners that read lines only.</summary>
public static class BarPicture
{
    // ISO/IEC 15417: a quiet zone of ten modules on either side.
    private const int Quiet = 10;
    private const int Height = 24;

    /// <summary>Whether Code 128 can hold the text: printable characters of ASCII, at most 40 so that it stays readable on a label.</summary>
    public static bool Holds(string code) => code is { Length: >= 1 and <= 40 } && code.All(letter => letter is >= ' ' and <= '~');

    /// <summary>The SVG of a code, black on white with its quiet zones.</summary>
    /// <param name="code">The text that a scanner reads.</param>
    /// <param name="id">A name that no other element of the page has.</param>
    /// <exception cref="ArgumentException">Code 128 cannot hold the text.</exception>
    public static string Svg(string code, string id)
    {
        if (!Holds(code))
        {
            throw new ArgumentException("Code 128 holds 1 to 40 printable characters of ASCII here.", nameof(code));
        }

        var bars = new Code128Writer().encode(code, BarcodeFormat.CODE_128, 1, 1, new Dictionary<EncodeHintType, object> { [EncodeHintType.MARGIN] = 0 });
        var path = new StringBuilder();
        for (var module = 0; module < bars.Width; module++)
        {
            if (bars[module, 0])
            {
                path.Append(CultureInfo.InvariantCulture, $"M{module + Quiet} 0h1v{Height}h-1z");
            }
        }

        var width = bars.Width + (2 * Quiet);
        return string.Create(CultureInfo.InvariantCulture,
            $"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {width} {Height}' preserveAspectRatio='none' role='img' aria-labelledby='{id}' shape-rendering='crispEdges'><title id='{id}'>Bars {System.Net.WebUtility.HtmlEncode(code)}</title><rect width='{width}' height='{Height}' fill='#fff'/><path d='{path}' fill='#000'/></svg>");
    }
}

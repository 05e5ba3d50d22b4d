using System.Globalization;
using System.Text;
using QRCoder;

namespace ParticleLims.Web.Labels;

/// <summary>A label code as a QR symbol (ISO/IEC 18004), drawn as one SVG path: sharp at every size and on every printer.</summary>
public static class CodePicture
{
    /// <summary>The SVG of a code, black on white with its quiet zone of four modules; error correction level M.</summary>
    /// <param name="code">The text that a scanner reads.</param>
    /// <param name="id">A name that no other element of the page has.</param>
    public static string Svg(string code, string id)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(code);
        using var generator = new QRCodeGenerator();
        using var symbol = generator.CreateQrCode(code, QRCodeGenerator.ECCLevel.M);
        var size = symbol.ModuleMatrix.Count;
        var path = new StringBuilder();
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                if (symbol.ModuleMatrix[row][column])
                {
                    path.Append(CultureInfo.InvariantCulture, $"M{column} {row}h1v1h-1z");
                }
            }
        }

        return string.Create(CultureInfo.InvariantCulture,
            $"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {size} {size}' role='img' aria-labelledby='{id}' shape-rendering='crispEdges'><title id='{id}'>Code {System.Net.WebUtility.HtmlEncode(code)}</title><rect width='{size}' height='{size}' fill='#fff'/><path d='{path}' fill='#000'/></svg>");
    }
}

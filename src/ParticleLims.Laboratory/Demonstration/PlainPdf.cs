using System.Globalization;
using System.Text;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>A page with a few lines of text as a PDF (ISO 32000-1, 7.5): just enough for the files of the demonstration, with ASCII and a typeface that every reader has.</summary>
internal static class PlainPdf
{
    /// <summary>The file.</summary>
    /// <exception cref="ArgumentException">A character that is not of ASCII.</exception>
    public static byte[] Of(IReadOnlyList<string> lines)
    {
        var text = string.Join('\n', lines.Select((line, index) => $"{(index == 0 ? "/F1 16 Tf" : "/F1 11 Tf")} ({Escaped(line)}) Tj 0 -24 Td"));
        var content = $"BT 24 TL 56 770 Td\n{text}\nET";
        string[] objects =
        [
            "<< /Type /Catalog /Pages 2 0 R >>",
            "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
            "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> >> >>",
            string.Create(CultureInfo.InvariantCulture, $"<< /Length {content.Length} >>\nstream\n{content}\nendstream"),
            "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
        ];
        var file = new StringBuilder("%PDF-1.4\n");
        var places = new List<int>();
        foreach (var (index, one) in objects.Index())
        {
            places.Add(file.Length);
            file.Append(CultureInfo.InvariantCulture, $"{index + 1} 0 obj\n{one}\nendobj\n");
        }

        var table = file.Length;
        file.Append(CultureInfo.InvariantCulture, $"xref\n0 {objects.Length + 1}\n0000000000 65535 f \n");
        places.ForEach(place => file.Append(CultureInfo.InvariantCulture, $"{place:0000000000} 00000 n \n"));
        file.Append(CultureInfo.InvariantCulture, $"trailer\n<< /Size {objects.Length + 1} /Root 1 0 R >>\nstartxref\n{table}\n%%EOF\n");
        return Encoding.ASCII.GetBytes(file.ToString());
    }

    private static string Escaped(string line) => line.All(char.IsAscii)
        ? line.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("(", "\\(", StringComparison.Ordinal).Replace(")", "\\)", StringComparison.Ordinal)
        : throw new ArgumentException($"“{line}” has a character that is not of ASCII.", nameof(line));
}

using System.Globalization;
using System.Text;

namespace ParticleLims.Analysis.Tests.ReferenceData;

/// <summary>Reads the reference tables that stand beside this file; each names its sources in its first lines.</summary>
internal static class ReferenceFile
{
    public static string Text(string name) =>
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "ReferenceData", name), Encoding.UTF8);

    public static IReadOnlyList<Row> Rows(string name)
    {
        var lines = Text(name).Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(line => !line.StartsWith('#'))
            .Select(line => Cells(line.TrimEnd('\r')))
            .ToList();
        return lines.Skip(1).Select(cells => new Row(lines[0], cells)).ToList();
    }

    private static List<string> Cells(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            if (line[i] == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (line[i] == '"')
            {
                quoted = !quoted;
            }
            else if (line[i] == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(line[i]);
            }
        }

        cells.Add(cell.ToString());
        return cells;
    }

    internal sealed class Row(List<string> names, List<string> cells)
    {
        public string this[string name] => cells[names.IndexOf(name)];

        public decimal Number(string name) => decimal.Parse(this[name], CultureInfo.InvariantCulture);

        public bool Has(string name) => this[name].Length > 0;
    }
}

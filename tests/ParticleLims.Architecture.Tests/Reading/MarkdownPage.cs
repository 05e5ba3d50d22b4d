using System.Text.RegularExpressions;

namespace ParticleLims.Architecture.Tests.Reading;

/// <summary>What a page in Markdown points at.</summary>
internal sealed partial class MarkdownPage(TextFile page)
{
    private static readonly Lazy<HashSet<string>> TopFolders = new(() => [.. House.Folders(string.Empty).Where(folder => folder.Length > 0)]);

    /// <summary>The paths on its maps: blocks of plain text whose first line starts with a folder, with one folder or file a line, indented below its folder.</summary>
    public IEnumerable<string> Map() => Blocks().Where(block => block.Language == "text" && FolderLine.IsMatch(block.Text)).SelectMany(block => PathsOf(block.Text));

    /// <summary>Links, pictures, paths, commands and places on a map that lead nowhere.</summary>
    public IEnumerable<string> DeadEnds()
    {
        var folder = Path.GetDirectoryName(page.Path) ?? string.Empty;
        var prose = Fence.Replace(page.Text, string.Empty);
        var links = Link.Matches(prose).Select(match => match.Groups["to"].Value).Where(IsInHouse).Select(link => Path.Combine(folder, link.Split('#')[0]));
        var words = Code.Matches(prose).Select(match => match.Groups["code"].Value).Concat(Blocks().Where(block => block.Language != "text").Select(block => block.Text)).SelectMany(PathsIn);
        return links.Concat(words).Concat(Map()).Distinct().Where(path => !House.Has(path)).Select(path => $"{page}: {path} is not there.");
    }

    [GeneratedRegex(@"^```(?<language>\w*)[^\n]*\n(?<text>.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Fence { get; }

    [GeneratedRegex(@"\]\((?<to>[^)\s]+)[^)]*\)|<(img|a)\b[^>]*?(src|href)=""(?<to>[^""]+)""", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Link { get; }

    [GeneratedRegex("`(?<code>[^`\n]+)`", RegexOptions.None, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Code { get; }

    [GeneratedRegex(@"\A\S+/(\s|\z)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex FolderLine { get; }

    private IEnumerable<(string Language, string Text)> Blocks() => Fence.Matches(page.Text).Select(match => (match.Groups["language"].Value, match.Groups["text"].Value));

    private static bool IsInHouse(string link) => !link.StartsWith('#') && !link.Contains(':', StringComparison.Ordinal);

    // A word is a path of ours where its first part is a folder at the top; one with a gap to fill in is none.
    private static IEnumerable<string> PathsIn(string code) =>
        code.Split([' ', '\n', '\t', '"', '\'', '=', ';', '(', ')', ','], StringSplitOptions.RemoveEmptyEntries)
            .Select(word => word.StartsWith("./", StringComparison.Ordinal) ? word[2..] : word)
            .Where(word => word.Contains('/', StringComparison.Ordinal) && word.IndexOfAny(['*', '<', '{', '…', '$', ':']) < 0 && TopFolders.Value.Contains(word.Split('/')[0]));

    private static IEnumerable<string> PathsOf(string map)
    {
        var above = new Stack<(int Indent, string Path)>();
        foreach (var line in map.Split('\n').Where(line => line.Trim().Length > 0))
        {
            var indent = line.Length - line.TrimStart().Length;
            while (above.TryPeek(out var top) && top.Indent >= indent)
            {
                above.Pop();
            }

            var name = line.Trim().Split(' ')[0].TrimEnd('/');
            above.Push((indent, above.TryPeek(out var parent) ? $"{parent.Path}/{name}" : name));
            yield return above.Peek().Path;
        }
    }
}

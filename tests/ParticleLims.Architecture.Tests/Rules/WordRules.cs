using System.Text.RegularExpressions;
using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>Texts that stand nowhere in the repository. They are written in pieces here, so that this file keeps the rules too.</summary>
internal static class WordRules
{
    private static readonly string[] TextEndings =
        [".cs", ".razor", ".css", ".js", ".html", ".md", ".txt", ".csv", ".json", ".xml", ".csproj", ".props", ".sln", ".yml", ".yaml", ".sh", ".svg", ".sql", ".http", "/run", "Dockerfile"];

    private static readonly string[] MachineFolders = ["/wo" + "rk/", "/ro" + "ot/", "/ho" + "me/", "/tmp/ba" + "sh_", @"C:\Us" + "ers"];

    private static readonly (string Name, string Why, string Pattern, string[] Guilty)[] Rows =
    [
        ("No text names a folder of one machine", "It is wrong on every other one.",
            string.Join('|', MachineFolders.Select(folder => @"(?<![\w.])" + Regex.Escape(folder))), [.. MachineFolders.Select(folder => $"see {folder}notes.md")]),
        ("No text speaks of the workplace", "The reader has no such place.", "fa" + @"rm-\w|nu" + @"get\.tsv|seed " + "document", ["fa" + "rm-7", "nu" + "get.tsv", "seed " + "document"]),
        ("No work is left for later in a comment", "It is done, or it is said where people look for it.", @"\b(TO" + "DO|FIX" + "ME|HA" + @"CK)\b|NotImplemented" + "Exception",
            ["// TO" + "DO: the rest", "FIX" + "ME", "# HA" + "CK", "throw new NotImplemented" + "Exception();"]),
        ("No test is switched off", "A test runs, or says while running why it cannot.", @"\b(Skip|Expli" + @"cit)\s*=\s*(""|true|nameof)", ["[Fact(Skip " + "= \"later\")]", "[Fact(Explicit" + "=true)]"]),
    ];

    public static IReadOnlyList<Rule> All { get; } = [.. Rows.Select(row => ForbiddenWord(row.Name, row.Why, new Regex(row.Pattern, RegexOptions.None, TimeSpan.FromSeconds(10)), row.Guilty))];

    private static Rule<TextFile> ForbiddenWord(string name, string why, Regex pattern, string[] guilty) => new(
        name,
        why,
        Texts,
        file => pattern.Matches(file.Text).Select(match => $"{file}, line {file.Text[..match.Index].Count(character => character == '\n') + 1}: {match.Value}"),
        [.. guilty.Select(text => new TextFile("a canary", text))]);

    private static IEnumerable<TextFile> Texts() => House.Files(string.Empty, TextEndings).Select(House.Read);
}

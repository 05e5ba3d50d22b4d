using System.Text.RegularExpressions;
using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>The published numbers that the engine is held against.</summary>
internal static partial class ReferenceDataRules
{
    private const string Tests = "tests/ParticleLims.Analysis.Tests";

    private static readonly Lazy<string> TestCode = new(() => string.Concat(House.Files(Tests, ".cs").Select(file => House.Read(file).Text)));

    public static IReadOnlyList<Rule> All { get; } =
    [
        new Rule<TextFile>(
            "A file of reference data names its source in its first lines",
            "A number whose origin nobody knows checks nothing.",
            Data,
            file => SourceLine.IsMatch(Head(file)) ? [] : [$"{file} does not name its source."],
            new TextFile("canary.csv", "aperture,passing\n63,12.5\n# source: too late\n")),
        new Rule<TextFile>(
            "A file of reference data is used by a test",
            "A number that nobody reads checks nothing.",
            Data,
            file => TestCode.Value.Contains($"\"{Path.GetFileName(file.Path)}\"", StringComparison.Ordinal) ? [] : [$"No test reads {file}."],
            new TextFile("canary" + ".csv", string.Empty)),
    ];

    [GeneratedRegex("^#.*(https?://|source|computed with|published)", RegexOptions.Multiline | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex SourceLine { get; }

    private static IEnumerable<TextFile> Data() =>
        House.Files($"{Tests}/ReferenceData").Where(file => Path.GetExtension(file) is not (".cs" or ".md")).Select(House.Read);

    private static string Head(TextFile file) => string.Join('\n', file.Text.Split('\n').TakeWhile(line => line.StartsWith('#')));
}

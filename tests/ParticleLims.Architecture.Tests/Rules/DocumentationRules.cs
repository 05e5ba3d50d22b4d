using System.Text.RegularExpressions;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>What the reader is told, and that it is so.</summary>
internal static partial class DocumentationRules
{
    private const string Engine = "ParticleLims.Analysis";
    private const string SciencePages = "docs/science";

    private static readonly Lazy<IReadOnlyDictionary<string, DocumentedMember>> Documentation = new(() =>
        DocumentedMember.Of(Engine).GroupBy(member => member.Id.Split('(')[0]).ToDictionary(group => group.Key, group => group.MaxBy(member => member.Text.Length)!));

    /// <summary>The choices between formulas; what they list must be explained.</summary>
    private static readonly Type[] Formulas =
        [typeof(Procedure), typeof(TransferLossRule), typeof(PercentBasis), typeof(Interpolation), typeof(Model), typeof(FitMethod), typeof(Rounding)];

    private static readonly Lazy<IReadOnlyList<TextFile>> Science = new(() =>
        [.. House.Files(SciencePages, ".md").Where(page => Path.GetFileName(page) != "README.md").Select(House.Read)]);

    public static IReadOnlyList<Rule> All { get; } =
    [
        new Rule<PublicMember>(
            "A public member of the engine is documented",
            "A formula that is not explained cannot be checked.",
            () => PublicMember.Of(typeof(Aperture).Assembly),
            member => Words(member).Length > 0 ? [] : [$"{member} is not documented."],
            new PublicMember("P:ParticleLims.Analysis.Canary.Silent", IsNumber: false)),
        new Rule<PublicMember>(
            "A bare number of the engine has its unit in its name or its documentation",
            "A number without a unit is not a result.",
            () => PublicMember.Of(typeof(Aperture).Assembly).Where(member => member.IsNumber),
            member => Unit.IsMatch(Words(member)) || UnitInName.IsMatch(member.Id) ? [] : [$"{member} does not say its unit: {Words(member)}"],
            new PublicMember("P:ParticleLims.Analysis.Canary.Value", IsNumber: true)),
        new Rule<string>(
            "A formula that the engine offers is explained under its name",
            "Who chooses a formula can read what it says, where it comes from and where it ends.",
            () => Formulas.SelectMany(Enum.GetNames),
            name => Science.Value.Any(page => InWords(name).IsMatch(page.Text)) ? [] : [$"No page in {SciencePages} speaks of {name}."],
            "NoSuchFormula"),
        new Rule<TextFile>(
            "A page on the science is named by the engine",
            "A derivation without code is about something else.",
            () => Science.Value,
            page => DocumentedMember.Of(Engine).Any(member => member.SciencePages.Contains(page.Path)) ? [] : [$"Nothing in the engine names {page}."],
            new TextFile(SciencePages + "/no-such-page.md", string.Empty)),
        new Rule<TextFile>(
            "A link, a picture, a path and a command in the documents lead to something on disk",
            "The reader types what stands there.",
            Pages,
            page => new MarkdownPage(page).DeadEnds(),
            new TextFile("canary.md", "See [the page](docs/no-such-page.md)."),
            new TextFile("docs/canary.md", "![picture](../docs/no-such-picture.png)"),
            new TextFile("canary.md", "Run `tests/no-such-command`."),
            new TextFile("canary.md", "```bash\ndotnet run --project src/ParticleLims.Gone -c Release\n```"),
            new TextFile("canary.md", "```text\nsrc/   the code\n  ParticleLims.Gone/   a project\n```")),
        new Rule<ProjectFile>(
            "A project stands on the map in the developers' page",
            "Who is new finds every room.",
            () => House.Projects,
            project => new MarkdownPage(House.Read("DEVELOPERS.md")).Map().Any(path => Path.GetFileName(path) == project.Name) ? [] : [$"DEVELOPERS.md has no {project.Name} on its map."],
            new ProjectFile("ParticleLims.Gone", [])),
    ];

    [GeneratedRegex(
        @"\b(grams?|micrometres?|µm|millimetres?|mm|seconds?|pascals?|Pa|degrees Celsius|°C|percent|%|per cent|fractions?|between 0 and 1|0 to 1|dimensionless|ratio|without unit|no unit|kilograms?|kg|per|square|logarithm|ln|multiple of|in the \S+ unit)(?!\w)|%",
        RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Unit { get; }

    [GeneratedRegex(@"\.\w*(Percent|Grams|Kilograms|Micrometres|Millimetres|Nanometres|Seconds|Pascals|Kilopascals|Celsius|Fraction|Ratio)\w*$", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex UnitInName { get; }

    [GeneratedRegex("(?=[A-Z])", RegexOptions.None, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Capital { get; }

    private static string Words(PublicMember member) => Documentation.Value.TryGetValue(member.Id, out var found) ? found.Text.Trim() : string.Empty;

    private static IEnumerable<TextFile> Pages() =>
        House.Files(string.Empty, ".md").Where(page => !page.Contains("/ReferenceData/", StringComparison.Ordinal)).Select(House.Read);

    /// <summary>"LogLinear" as people write it: logLinear, log-linear, log linear.</summary>
    private static Regex InWords(string name) => new(string.Join("[ -]?", Capital.Split(name).Where(part => part.Length > 0)), RegexOptions.IgnoreCase, TimeSpan.FromSeconds(10));
}

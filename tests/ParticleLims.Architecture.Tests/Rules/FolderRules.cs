using System.Text.RegularExpressions;
using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>The feature folders: their words, and that no two of them lean on each other.</summary>
internal static partial class FolderRules
{
    private const string LaboratoryWords =
        "AccessReviews Alerts Balances Cautions Certificates Customers Deliveries Dispositions Documents Equipment EquipmentFailures Exchange Heads Histories Investigations Lots Methods Outgoing People Products Record Review Runs Samples Settings "
        + "Sieves SievingUnits Signatures Specifications Templates Terminals Today Trends";

    /// <summary>The folders of each project. The laboratory's words are used on every level.</summary>
    private static readonly Dictionary<string, string> Words = new(StringComparer.Ordinal)
    {
        ["ParticleLims.Analysis"] = "Balances Conformity Distributions Findings ModelFits Quantities Sampling Sieves Statistics Uncertainty Weighings",
        ["ParticleLims.Laboratory"] = LaboratoryWords + " Demonstration Storage",
        ["ParticleLims.Storage.Sqlite"] = "Migrations",
        ["ParticleLims.Storage.Postgres"] = "Migrations",
        ["ParticleLims.Instruments"] = "Connections Pressures Readings Simulation Stability",
        ["ParticleLims.Pictures"] = "Drawing Plots Scales Svg",
        ["ParticleLims.CertificatePdf"] = "Drawing Flow Fonts Record Sealing Sections",
        ["ParticleLims.Web"] = LaboratoryWords + " Bench Controls Decisions Evaluations Labels Properties Readings Shell Start Today Verify wwwroot",
    };

    public static IReadOnlyList<Rule> All { get; } =
    [
        new Rule<string>(
            "A folder of a project is one of the words of the house",
            "One thing, one name; and no drawer for things without a place. A new folder needs a word in the table.",
            () => House.Folders("src").SelectMany(House.Folders),
            UnknownWord,
            "src/ParticleLims.Laboratory/Utils", "src/ParticleLims.Analysis/Lots", "src/ParticleLims.Stray/Lots"),
        new Rule<TextFile>(
            "A namespace is the folder of its file",
            "The other rules know a folder by its namespace.",
            () => House.Files("src", ".cs").Concat(House.Files("tests", ".cs")).Select(House.Read),
            StrayNamespace,
            new TextFile("src/ParticleLims.Laboratory/Lots/Lot.cs", "namespace ParticleLims.Laboratory.Samples;"),
            new TextFile("tests/ParticleLims.Web.Tests/Lots/LotTests.cs", "public class LotTests;")),
        new Rule<FolderGraph>(
            "No two feature folders lean on each other, not even by a detour",
            "A cycle makes one lump of two features: they can be understood, tested and changed only together.",
            () => House.Folders("src").Select(folder => Path.GetFileName(folder)!).Select(project => FolderGraph.Of(project, BuiltAssembly.TypesOf(project))),
            graph => graph.Cycles().Select(cycle => $"{graph.Root}: {cycle}"),
            FolderGraph.Of("ParticleLims.Architecture.Tests.Canaries", BuiltAssembly.TypesOf("ParticleLims.Architecture.Tests"))),
    ];

    [GeneratedRegex(@"^namespace\s+(?<name>[\w.]+)", RegexOptions.Multiline, matchTimeoutMilliseconds: 10_000)]
    private static partial Regex Namespace { get; }

    private static IEnumerable<string> UnknownWord(string folder)
    {
        var parts = folder.Split('/');
        return Words.TryGetValue(parts[1], out var words) && words.Split(' ').Contains(parts[2]) ? [] : [$"{folder} is not a word of {parts[1]}."];
    }

    private static IEnumerable<string> StrayNamespace(TextFile file)
    {
        var expected = string.Join('.', Path.GetDirectoryName(file.Path)!.Split('/', '\\')[1..]);
        var found = Namespace.Matches(file.Text).Select(match => match.Groups["name"].Value).ToList();
        var isFileWithout = found.Count == 0 && Path.GetFileName(file.Path) is "Program.cs" or "GlobalUsings.cs" or "AssemblyInfo.cs";
        return isFileWithout || (found.Count > 0 && found.TrueForAll(one => one == expected)) ? [] : [$"{file} has {string.Join(", ", found)} and not {expected}."];
    }
}

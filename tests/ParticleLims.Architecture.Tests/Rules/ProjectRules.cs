using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>Which project may refer to which.</summary>
internal static class ProjectRules
{
    private const string Analysis = "ParticleLims.Analysis";
    private const string Laboratory = "ParticleLims.Laboratory";
    private const string Instruments = "ParticleLims.Instruments";
    private const string Pictures = "ParticleLims.Pictures";
    private const string CertificatePdf = "ParticleLims.CertificatePdf";
    private const string Sqlite = "ParticleLims.Storage.Sqlite";
    private const string Postgres = "ParticleLims.Storage.Postgres";
    private const string Web = "ParticleLims.Web";
    private const string TestLaboratory = "ParticleLims.TestLaboratory";
    private const string PowerCuts = "ParticleLims.PowerCuts";

    private static readonly Dictionary<string, string[]> MayReferTo = new(StringComparer.Ordinal)
    {
        [Analysis] = [],
        [Laboratory] = [Analysis],
        [Sqlite] = [Laboratory],
        [Postgres] = [Laboratory],
        [Instruments] = [Analysis],
        [Pictures] = [Analysis],
        [CertificatePdf] = [Pictures, Laboratory],
        [Web] = [Laboratory, CertificatePdf, Pictures, Instruments, Sqlite, Postgres],

        [TestLaboratory] = [Laboratory, Sqlite, Postgres],
        ["ParticleLims.Analysis.Tests"] = [Analysis],
        ["ParticleLims.Laboratory.Tests"] = [Laboratory, TestLaboratory],
        ["ParticleLims.Storage.Sqlite.Tests"] = [Sqlite, TestLaboratory],
        ["ParticleLims.Storage.Postgres.Tests"] = [Postgres, TestLaboratory],
        ["ParticleLims.Instruments.Tests"] = [Instruments],
        ["ParticleLims.Pictures.Tests"] = [Pictures],
        ["ParticleLims.CertificatePdf.Tests"] = [CertificatePdf],
        ["ParticleLims.Web.Tests"] = [Web, TestLaboratory],
        ["ParticleLims.Journeys.Tests"] = [Web, TestLaboratory, PowerCuts],
        ["ParticleLims.PowerCuts"] = [Sqlite, TestLaboratory],
        ["ParticleLims.Architecture.Tests"] = [Web, TestLaboratory],
        ["ParticleLims.Benchmarks"] = [Web, TestLaboratory],
    };

    public static IReadOnlyList<Rule> All { get; } =
    [
        new Rule<ProjectFile>(
            "A project refers only to the projects that the drawing of the house allows",
            "The engine is pure, the two databases are apart, the web is replaceable. A new project needs a row here.",
            () => House.Projects,
            ForbiddenReferences,
            new ProjectFile(Analysis, [Laboratory]),
            new ProjectFile(Laboratory, [Analysis, Sqlite]),
            new ProjectFile(Web, [TestLaboratory]),
            new ProjectFile("ParticleLims.Stray", [])),
        new Rule<string>(
            "A row of the drawing of the house stands for a project on disk",
            "A row for nothing hides that a wall is gone.",
            () => MayReferTo.Keys,
            name => House.Projects.Any(project => project.Name == name) ? [] : [$"There is no project {name}."],
            "ParticleLims.Gone"),
        new Rule<string>(
            "A project stands in the solution",
            "What is not in the solution is neither built nor tested.",
            () => House.Projects.Select(project => project.Name),
            name => House.Read("ParticleLims.sln").Text.Contains($"\"{name}\"", StringComparison.Ordinal) ? [] : [$"ParticleLims.sln does not name {name}."],
            "ParticleLims.Stray"),
    ];

    private static IEnumerable<string> ForbiddenReferences(ProjectFile project) =>
        MayReferTo.TryGetValue(project.Name, out var allowed)
            ? project.References.Except(allowed).Select(other => $"{project.Name} refers to {other}.")
            : [$"{project.Name} has no row."];
}

using ParticleLims.Architecture.Tests.Canaries;
using ParticleLims.Architecture.Tests.Reading;

namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>Where the database may be spoken to.</summary>
internal static class DatabaseRules
{
    private const string Laboratory = "ParticleLims.Laboratory";
    private const string Mapping = "Microsoft.EntityFrameworkCore.IEntityTypeConfiguration";
    private const string Context = Laboratory + ".Storage.LaboratoryContext";

    private static readonly string[] Database = ["Microsoft.EntityFrameworkCore", "Microsoft.Data.Sqlite", "Npgsql"];

    /// <summary>Where the parts are put together at the start, the one place of the web that chooses a database.</summary>
    private static readonly string[] StartOfTheWeb = ["Program"];

    /// <summary>A service is known by what it is given: one of these stands in a constructor or method of it.</summary>
    private static readonly string[] GivenToServices =
        [Context, Laboratory + ".Record.WritePath", Laboratory + ".Record.ReadPath", Laboratory + ".Record.DeedScope", "Microsoft.EntityFrameworkCore.IDbContextFactory", "System.Linq.IQueryable"];

    public static IReadOnlyList<Rule> All { get; } =
    [
        new Rule<BuiltType>(
            "The web does not touch the database",
            "Pages and the interface for programs call services; rules and permissions are enforced there.",
            () => BuiltAssembly.TypesOf("ParticleLims.Web"),
            type => StartOfTheWeb.Contains(type.Name) ? [] : type.UsesOf([.. Database, Context]).Select(use => $"{type} uses {use}."),
            Canary(typeof(AskingPageCanary))),
        new Rule<BuiltType>(
            "In the laboratory only mappings, services, Record and Storage use Entity Framework",
            "An entity and a rule are plain code that can be read and tested without a database.",
            () => BuiltAssembly.TypesOf(Laboratory).Where(type => BuiltType.FolderOf(type.Name, Laboratory) is not ("Storage" or "Record")),
            type => IsMapping(type) || IsService(type) ? [] : type.UsesOf(Database).Select(use => $"{type} uses {use}."),
            Canary(typeof(KnowingEntityCanary))),
        new Rule<BuiltType>(
            "An entity does not use Entity Framework, whatever else it is",
            "An entity and a rule are plain code that can be read and tested without a database.",
            () => Entities(BuiltAssembly.TypesOf(Laboratory)),
            type => type.UsesOf(Database).Select(use => $"{type} uses {use}."),
            [.. Entities(BuiltAssembly.TypesOf("ParticleLims.Architecture.Tests"))]),
        new Rule<BuiltType>(
            "The engine, the pictures, the instruments and the certificate know no database",
            "They are drawn and computed from what they are given.",
            () => new[] { "Analysis", "Pictures", "Instruments", "CertificatePdf" }.SelectMany(name => BuiltAssembly.TypesOf("ParticleLims." + name)),
            type => type.UsesOf([.. Database, Context]).Select(use => $"{type} uses {use}."),
            Canary(typeof(AskingPageCanary))),
    ];

    private static BuiltType Canary(Type type) => BuiltAssembly.TypesOf("ParticleLims.Architecture.Tests").Single(one => one.Name == type.FullName);

    private static bool IsMapping(BuiltType type) => type.Interfaces.Any(one => one.StartsWith(Mapping, StringComparison.Ordinal));

    private static bool IsService(BuiltType type) => type.SignatureTypes.Overlaps(GivenToServices);

    private static IEnumerable<BuiltType> Entities(IReadOnlyList<BuiltType> types)
    {
        var mapped = types.SelectMany(type => type.Interfaces).Where(one => one.StartsWith(Mapping + "<", StringComparison.Ordinal)).Select(one => one[(Mapping.Length + 1)..^1]).ToHashSet();
        return types.Where(type => mapped.Contains(type.Name));
    }
}

using System.Reflection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>The table of everything that the laboratory's services can do, beside what reflection finds of them.</summary>
internal static class Abilities
{
    /// <summary>The paths through which all of them go; they have no permission of their own.</summary>
    private static readonly Type[] Paths = [typeof(WritePath), typeof(ReadPath)];

    /// <summary>Methods that are not one deed, and where they are proved instead.</summary>
    public static IReadOnlyDictionary<string, string> Elsewhere { get; } = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["DatabaseOpening.OpenAsync/2"] = "runs before there is anybody: EveryDeedTests, OpeningTests",
        ["NewestCertificate.FindAsync/1"] = "asked at the start of the program, before there is anybody, and writes nothing: NewestCertificateTests, SealAtStartTests",
        ["RecordInspection.InspectAsync/2"] = "at the console, by whoever has the database in hand, and writes nothing: RecordCommandTests",
        ["DemonstrationLaboratory.GetReady/0"] = "hashes and touches no database: DemonstrationMakingTests",
        ["DemonstrationLaboratory.OpenAsync/3"] = "makes a history of many deeds by the services of this table: DemonstrationMakingTests",
    };

    /// <summary>Events that no row leaves, and why.</summary>
    public static IReadOnlyDictionary<string, string> EventsElsewhere { get; } = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["storage.migrate"] = "left by DatabaseOpening.OpenAsync",
        ["people.passkey-used"] = "left by SignOn.ProveAsync when the secret is a passkey: PasskeyTests",
        ["settings.set-up-demonstration"] = "the first of the deeds of DemonstrationLaboratory.OpenAsync",
    };

    /// <summary>All rows.</summary>
    public static IReadOnlyList<Ability> All { get; } = [.. BenchAbilities.All, .. DeskAbilities.All, .. DocumentAbilities.All, .. EquipmentAbilities.All, .. SieveAbilities.All, .. TrustAbilities.All, .. MeasuringAbilities.All, .. PeopleAbilities.All, .. OutgoingAbilities.All, .. DeliveryAbilities.All, .. WatchAbilities.All];

    /// <summary>The row of a name.</summary>
    public static Ability Of(string name) => All.Single(ability => ability.Name == name);

    /// <summary>Every public method of every service that reaches the database: found by what its constructor asks for, so that none can hide.</summary>
    public static IEnumerable<MethodInfo> Found() =>
        from service in Services()
        from method in service.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
        select method;

    private static IEnumerable<Type> Services()
    {
        var registered = new ServiceCollection().AddLaboratory().Select(service => service.ServiceType).ToList();
        var reaching = typeof(WritePath).Assembly.GetExportedTypes().Where(type => !Paths.Contains(type) && Reaches(type)).ToList();
        foreach (var type in reaching)
        {
            var closed = registered.Where(service => service == type || (service.IsGenericType && service.GetGenericTypeDefinition() == type)).ToList();
            closed.ShouldNotBeEmpty($"{type.Name} reaches the database and is not among the laboratory's services");
            foreach (var service in closed)
            {
                yield return service;
            }
        }
    }

    /// <summary>Whether a class is built over one of the paths or over the database itself.</summary>
    public static bool Reaches(Type type) => type.GetConstructors().SelectMany(constructor => constructor.GetParameters())
        .Any(parameter => Paths.Contains(parameter.ParameterType) || parameter.ParameterType == typeof(IDbContextFactory<LaboratoryContext>));
}

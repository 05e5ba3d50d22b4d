using System.Reflection;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>Runs a theory once on each database. Further values follow the kind; where there is no PostgreSQL its rows are skipped with the reason.</summary>
/// <param name="more">The theory's other arguments.</param>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
public sealed class EachDatabaseAttribute(params object?[] more) : DataAttribute
{
    /// <summary>The theory's other arguments.</summary>
    public IReadOnlyList<object?> More { get; } = more;

    /// <inheritdoc />
    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        ValueTask.FromResult<IReadOnlyCollection<ITheoryDataRow>>([.. Enum.GetValues<DatabaseKind>().Select(kind => new TheoryDataRow([kind, .. More]))]);

    /// <inheritdoc />
    public override bool SupportsDiscoveryEnumeration() => true;
}

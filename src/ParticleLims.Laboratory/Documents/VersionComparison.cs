namespace ParticleLims.Laboratory.Documents;

/// <summary>One thing that a version says: "Sieving time" and "180 s".</summary>
/// <param name="Name">What it is about, the same in every version.</param>
/// <param name="Value">What the version says of it.</param>
public sealed record VersionFact(string Name, string Value);

/// <summary>What became of one fact from a version to the next.</summary>
/// <param name="Name">What it is about.</param>
/// <param name="Before">What the earlier version said; null where it said nothing.</param>
/// <param name="After">What the later version says; null where it says nothing.</param>
public sealed record VersionChange(string Name, string? Before, string? After)
{
    /// <summary>The change as a sentence.</summary>
    public string Words => (Before, After) switch
    {
        (null, _) => $"{Name}: new, {After}.",
        (_, null) => $"{Name}: taken out; it was {Before}.",
        _ => $"{Name}: {Before} became {After}.",
    };
}

/// <summary>Compares versions by what they say.</summary>
public static class VersionComparison
{
    /// <summary>What changed from one version to another, in the order of the later one; what was taken out comes last.</summary>
    public static IReadOnlyList<VersionChange> Between(IReadOnlyList<VersionFact> earlier, IReadOnlyList<VersionFact> later)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        var before = earlier.ToDictionary(fact => fact.Name, fact => fact.Value, StringComparer.Ordinal);
        var after = later.Select(fact => fact.Name).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. later.Where(fact => before.GetValueOrDefault(fact.Name) != fact.Value).Select(fact => new VersionChange(fact.Name, before.GetValueOrDefault(fact.Name), fact.Value)),
            .. earlier.Where(fact => !after.Contains(fact.Name)).Select(fact => new VersionChange(fact.Name, fact.Value, null)),
        ];
    }

    /// <summary>Every name that one of the versions speaks of, in the order of the first that does.</summary>
    public static IReadOnlyList<string> Names(IEnumerable<IReadOnlyList<VersionFact>> versions) =>
        [.. versions.SelectMany(facts => facts).Select(fact => fact.Name).Distinct(StringComparer.Ordinal)];
}

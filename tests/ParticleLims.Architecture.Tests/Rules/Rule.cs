namespace ParticleLims.Architecture.Tests.Rules;

/// <summary>One rule of the house: whom it concerns, what is a fault, and somebody guilty whom it must report.</summary>
public abstract class Rule(string name, string why)
{
    /// <summary>The rule as a sentence.</summary>
    public string Name { get; } = name;

    /// <summary>The reason for it, shown with a fault.</summary>
    public string Why { get; } = why;

    /// <summary>How many subjects it concerns, and what is wrong with them.</summary>
    public abstract (int Examined, IReadOnlyList<string> Faults) Judge();

    /// <summary>The guilty canaries that the rule does not report.</summary>
    public abstract IReadOnlyList<string> UnreportedCanaries();

    /// <inheritdoc />
    public override string ToString() => Name;
}

/// <summary>A rule over one kind of subject.</summary>
/// <param name="name">The rule as a sentence.</param>
/// <param name="why">The reason for it.</param>
/// <param name="who">All subjects in the house.</param>
/// <param name="faults">What is wrong with a subject; nothing where it keeps the rule.</param>
/// <param name="guilty">Subjects made to break the rule.</param>
public sealed class Rule<T>(string name, string why, Func<IEnumerable<T>> who, Func<T, IEnumerable<string>> faults, params T[] guilty) : Rule(name, why)
{
    /// <inheritdoc />
    public override (int Examined, IReadOnlyList<string> Faults) Judge()
    {
        var subjects = who().ToList();
        return (subjects.Count, [.. subjects.SelectMany(faults)]);
    }

    /// <inheritdoc />
    public override IReadOnlyList<string> UnreportedCanaries() =>
        guilty.Length == 0 ? ["(it has none)"] : [.. guilty.Where(canary => !faults(canary).Any()).Select(canary => canary?.ToString() ?? "null")];
}

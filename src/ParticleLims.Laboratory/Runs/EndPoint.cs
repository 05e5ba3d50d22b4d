using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Methods;

namespace ParticleLims.Laboratory.Runs;

/// <summary>How the residue of a sieve changed in a further interval.</summary>
/// <param name="Position">The sieve.</param>
/// <param name="Round">The further interval, 1 and on.</param>
/// <param name="Before">The residue before it.</param>
/// <param name="After">The residue after it.</param>
/// <param name="IsReached">Whether the method's rule is satisfied.</param>
public sealed record ResidueChange(int Position, int Round, Mass Before, Mass After, bool IsReached)
{
    /// <summary>What went through in the interval; negative where the residue grew.</summary>
    public Mass Passed => Before - After;
}

/// <summary>Whether sieving has gone on long enough, as far as the weighings tell.</summary>
public static class EndPoint
{
    /// <summary>How each residue changed in each further interval that has been weighed.</summary>
    public static IReadOnlyList<ResidueChange> Changes(Run run, MethodVersion method)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(method);
        return method.EndPoint is not { } plan
            ? []
            : [.. from position in Enumerable.Range(1, method.Sieves.Count) from round in Enumerable.Range(1, plan.MostIntervals) select Change(run, method, position, round) into change where change is not null select change];
    }

    /// <summary>How a further interval ended on a sieve, or on the whole stack (position 0): by the sieve that changed against the rule, if there is one. Null while it has not been weighed.</summary>
    internal static ResidueChange? After(Run run, MethodVersion method, int position, int round)
    {
        var positions = position > 0 ? [position] : Enumerable.Range(1, method.Sieves.Count);
        var changes = positions.Select(one => Change(run, method, one, round)).ToList();
        return changes.Contains(null) ? null : changes.OrderBy(change => change!.IsReached).First();
    }

    private static ResidueChange? Change(Run run, MethodVersion method, int position, int round)
    {
        if (run.Find(WeighingKind.Empty, position, 0) is not { } empty || run.Find(WeighingKind.After, position, round - 1) is not { } before || run.Find(WeighingKind.After, position, round) is not { } after
            || Portion(run, method, position) is not { } portion || portion <= Mass.Zero)
        {
            return null;
        }

        // The balance may show a little less than nothing; nothing lies there then.
        var (was, left) = (NotNegative(before.Mass - empty.Mass), NotNegative(after.Mass - empty.Mass));
        return new ResidueChange(position, round, was, left, method.EndPoint!.Rule().IsReached(was, left, portion));
    }

    private static Mass NotNegative(Mass mass) => mass < Mass.Zero ? Mass.Zero : mass;

    private static Mass? Portion(Run run, MethodVersion method, int position) => method.Procedure switch
    {
        SievingProcedure.NestedStack => Difference(run, WeighingKind.ContainerLoaded, WeighingKind.ContainerEmpty, 0),
        SievingProcedure.CarriedResidue => Difference(run, WeighingKind.Loaded, WeighingKind.Empty, 1),
        _ => Difference(run, WeighingKind.Loaded, WeighingKind.Empty, position),
    };

    private static Mass? Difference(Run run, WeighingKind gross, WeighingKind tare, int position) =>
        run.Find(gross, position) is { } with && run.Find(tare, position) is { } without ? with.Mass - without.Mass : null;
}

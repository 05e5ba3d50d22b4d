using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Variance;

/// <summary>
/// Values in subgroups in groups, as runs on samples from lots: how much each level scatters (docs/science/nested-anova.md). The numbers in the groups may differ. Source:
/// expected mean squares of the unbalanced nested design, Searle, Linear Models (1971), chapter 11, from memory; ISO 5725-3:1994, annex C, for equal numbers.
/// </summary>
public sealed record NestedAnova
{
    private NestedAnova()
    {
    }

    /// <summary>Between the groups.</summary>
    public VarianceLine Groups { get; private init; } = null!;

    /// <summary>Between the subgroups of a group.</summary>
    public VarianceLine Subgroups { get; private init; } = null!;

    /// <summary>Within the subgroups.</summary>
    public VarianceLine Within { get; private init; } = null!;

    /// <summary>The variance within subgroups (repeatability), in the square of the values' unit.</summary>
    public double WithinVariance => Within.MeanSquare;

    /// <summary>The variance of subgroups in a group, in the square of the values' unit; below zero it counts as zero.</summary>
    public double SubgroupVariance { get; private init; }

    /// <summary>The variance of groups, in the square of the values' unit; below zero it counts as zero.</summary>
    public double GroupVariance { get; private init; }

    /// <summary>Whether a component came out below zero and was set to zero.</summary>
    public bool IsClamped { get; private init; }

    /// <summary>The standard deviation of a single value of a new subgroup of a new group, in the values' unit.</summary>
    public double TotalDeviation => Math.Sqrt(WithinVariance + SubgroupVariance + GroupVariance);

    /// <summary>The standard deviation of values of different subgroups of one group, in the values' unit.</summary>
    public double WithinGroupDeviation => Math.Sqrt(WithinVariance + SubgroupVariance);

    /// <summary>The analysis of two groups or more; at least one group has two subgroups, and one subgroup two values.</summary>
    /// <exception cref="ArgumentException">Too few groups, subgroups or values, or a value that is not a number up to ±1e100.</exception>
    public static NestedAnova Of(IReadOnlyList<IReadOnlyList<IReadOnlyList<double>>> groups)
    {
        Given.Enough(groups, 2, nameof(groups));
        var values = groups.Select(group => Checked(group, nameof(groups)).Select(subgroup => Given.Values(subgroup, 1, nameof(groups))).ToList()).ToList();
        var subgroupFreedom = values.Sum(group => group.Count - 1);
        var withinFreedom = values.Sum(group => group.Sum(subgroup => subgroup.Length - 1));
        return subgroupFreedom > 0 && withinFreedom > 0
            ? Of(values, subgroupFreedom, withinFreedom)
            : throw new ArgumentException("At least one group has two subgroups, and one subgroup two values.", nameof(groups));
    }

    private static IReadOnlyList<IReadOnlyList<double>> Checked(IReadOnlyList<IReadOnlyList<double>> group, string name)
    {
        Given.Enough(group, 1, name);
        return group;
    }

    private static NestedAnova Of(List<List<DoubleDouble[]>> values, int subgroupFreedom, int withinFreedom)
    {
        var groupMeans = values.ConvertAll(group => Sums.Mean([.. group.SelectMany(subgroup => subgroup)]));
        var mean = Sums.Mean([.. values.SelectMany(group => group.SelectMany(subgroup => subgroup))]);
        var between = Sums.Of(values.Select((group, i) => group.Sum(subgroup => subgroup.Length) * Square(groupMeans[i] - mean)));
        var among = Sums.Of(values.SelectMany((group, i) => group.Select(subgroup => subgroup.Length * Square(Sums.Mean(subgroup) - groupMeans[i]))));
        var within = Sums.Of(values.SelectMany(group => group.Select(subgroup => Sums.SquaresAbout(subgroup, Sums.Mean(subgroup)))));
        return WithComponents(
            VarianceLine.Of(between, values.Count - 1), VarianceLine.Of(among, subgroupFreedom), VarianceLine.Of(within, withinFreedom), values);
    }

    private static NestedAnova WithComponents(VarianceLine groups, VarianceLine subgroups, VarianceLine within, List<List<DoubleDouble[]>> values)
    {
        double all = values.Sum(group => group.Sum(subgroup => subgroup.Length));
        var ofGroup = values.ConvertAll(group => (double)group.Sum(subgroup => subgroup.Length));
        var perGroup = values.Select((group, i) => group.Sum(subgroup => (double)subgroup.Length * subgroup.Length) / ofGroup[i]).Sum();
        var perAll = values.Sum(group => group.Sum(subgroup => (double)subgroup.Length * subgroup.Length)) / all;
        var subgroup = (subgroups.MeanSquare - within.MeanSquare) * subgroups.DegreesOfFreedom / (all - perGroup);
        var rest = groups.MeanSquare - within.MeanSquare - (Math.Max(0, subgroup) * (perGroup - perAll) / groups.DegreesOfFreedom);
        var group = rest * groups.DegreesOfFreedom / (all - (ofGroup.Sum(n => n * n) / all));
        return new NestedAnova
        {
            Groups = groups,
            Subgroups = subgroups,
            Within = within,
            SubgroupVariance = Math.Max(0, subgroup),
            GroupVariance = Math.Max(0, group),
            IsClamped = subgroup < 0 || group < 0,
        };
    }

    private static DoubleDouble Square(DoubleDouble value) => value * value;
}

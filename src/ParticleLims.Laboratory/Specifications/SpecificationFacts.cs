using System.Globalization;
using ParticleLims.Laboratory.Documents;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>What a version of a specification says: one limit a line, then what makes a result and how the lot is sampled.</summary>
public static class SpecificationFacts
{
    /// <summary>The facts in the order of the limits; a characteristic that stands twice is numbered.</summary>
    public static IReadOnlyList<VersionFact> Of(SpecificationVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        return
        [
            .. version.Limits.OrderBy(limit => limit.Position).Select(limit => new VersionFact(Name(limit, seen), Words(limit))),
            .. Determinations(version), .. Sampling(version.Sampling),
        ];
    }

    /// <summary>The alert limits in words: "below 40.0 or above 46.0 µm"; null where there are none.</summary>
    public static string? AlertInWords(this Limit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        return (limit.LowerAlert, limit.UpperAlert) switch
        {
            ({ } lower, { } upper) => $"below {Number(lower, limit.Digits)} or above {Number(upper, limit.Digits)}{Unit(limit)}",
            ({ } lower, null) => $"below {Number(lower, limit.Digits)}{Unit(limit)}",
            (null, { } upper) => $"above {Number(upper, limit.Digits)}{Unit(limit)}",
            _ => null,
        };
    }

    /// <summary>A number in the limit's decimals and unit: "46.0 µm".</summary>
    internal static string Measured(this Limit limit, decimal value) => Number(value, limit.Digits) + Unit(limit);

    /// <summary>The combination as people say it.</summary>
    public static string Words(this Combination combination) => combination switch
    {
        Combination.Mean => "their mean is judged",
        Combination.MeanAndEach => "their mean is judged, and each must conform",
        _ => throw new ArgumentOutOfRangeException(nameof(combination), combination, "Not a combination."),
    };

    /// <summary>The bounds in words: "at least 97.0 %", "38.0 to 48.0 µm".</summary>
    public static string Bounds(this Limit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        var unit = Unit(limit);
        return (limit.Lower, limit.Upper) switch
        {
            ({ } lower, { } upper) => $"{Number(lower, limit.Digits)} to {Number(upper, limit.Digits)}{unit}",
            ({ } lower, null) => $"at least {Number(lower, limit.Digits)}{unit}",
            (null, { } upper) => $"at most {Number(upper, limit.Digits)}{unit}",
            _ => "no bound",
        };
    }

    private static string Unit(Limit limit) => limit.Unit == "1" ? string.Empty : " " + limit.Unit;

    private static IEnumerable<VersionFact> Determinations(SpecificationVersion version)
    {
        if (version.Determinations is { } count)
        {
            yield return new VersionFact("Determinations for one result", count.ToString(CultureInfo.InvariantCulture) + ", or more where the method asks for more");
        }

        if (version.Combination != Combination.Mean)
        {
            yield return new VersionFact("Determinations combined", version.Combination.Words());
        }
    }

    private static IEnumerable<VersionFact> Sampling(SamplingPlan? plan)
    {
        if (plan is null)
        {
            yield break;
        }

        yield return new VersionFact("Increments of the sample", plan.Increments.ToString(CultureInfo.InvariantCulture));
        yield return new VersionFact("Sampling procedure", plan.Procedure);
        if (plan.LeastMass is { } least)
        {
            yield return new VersionFact("Least mass of the sample", string.Create(CultureInfo.InvariantCulture, $"{least.Grams:0.######} g"));
        }

        if (plan.ToRecord is { } asked)
        {
            yield return new VersionFact("Written down on arrival", asked);
        }
    }

    private static string Words(Limit limit) =>
        limit.Bounds() + string.Create(CultureInfo.InvariantCulture, $"; {limit.Digits} {(limit.Digits == 1 ? "decimal" : "decimals")}; {(limit.Printed ? "printed" : "not printed")}") + (limit.Rule == LimitRule.Simple ? string.Empty : $"; {limit.RuleInWords()}")
        + (limit.AlertInWords() is { } alert ? $"; alert {alert}" : string.Empty) + (limit.GreatestSpread is { } spread ? $"; determinations differ by at most {limit.Measured(spread)}" : string.Empty);

    /// <summary>The decision rule in words: "simple acceptance", "guarded acceptance, guard band 1 U".</summary>
    public static string RuleInWords(this Limit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        var band = string.Create(CultureInfo.InvariantCulture, $", guard band {limit.GuardFactor:0.###} U");
        return limit.Rule switch
        {
            LimitRule.Simple => "simple acceptance",
            LimitRule.Guarded => "guarded acceptance" + band,
            LimitRule.FourState => "four states" + band,
            _ => throw new ArgumentOutOfRangeException(nameof(limit), limit.Rule, "Not a decision rule."),
        };
    }

    private static string Name(Limit limit, Dictionary<string, int> seen)
    {
        seen[limit.Words] = seen.GetValueOrDefault(limit.Words) + 1;
        return seen[limit.Words] == 1 ? limit.Words : string.Create(CultureInfo.InvariantCulture, $"{limit.Words} ({seen[limit.Words]})");
    }

    // A bound is shown whole, also where it has more decimals than the value.
    private static string Number(decimal bound, int digits) => decimal.Round(bound, digits) == bound
        ? bound.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
        : bound.ToString("0.######", CultureInfo.InvariantCulture);
}

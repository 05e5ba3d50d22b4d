using System.Globalization;
using ParticleLims.Laboratory.Documents;

namespace ParticleLims.Laboratory.Specifications;

/// <summary>What a version of a specification says, one limit a line.</summary>
public static class SpecificationFacts
{
    /// <summary>The facts in the order of the limits; a characteristic that stands twice is numbered.</summary>
    public static IReadOnlyList<VersionFact> Of(SpecificationVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. version.Limits.OrderBy(limit => limit.Position).Select(limit => new VersionFact(Name(limit, seen), Words(limit)))];
    }

    /// <summary>The bounds in words: "at least 97.0 %", "38.0 to 48.0 µm".</summary>
    public static string Bounds(this Limit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        var unit = limit.Unit == "1" ? string.Empty : " " + limit.Unit;
        return (limit.Lower, limit.Upper) switch
        {
            ({ } lower, { } upper) => $"{Number(lower, limit.Digits)} to {Number(upper, limit.Digits)}{unit}",
            ({ } lower, null) => $"at least {Number(lower, limit.Digits)}{unit}",
            (null, { } upper) => $"at most {Number(upper, limit.Digits)}{unit}",
            _ => "no bound",
        };
    }

    private static string Words(Limit limit) =>
        limit.Bounds() + string.Create(CultureInfo.InvariantCulture, $"; {limit.Digits} {(limit.Digits == 1 ? "decimal" : "decimals")}; {(limit.Printed ? "printed" : "not printed")}") + (limit.Rule == LimitRule.Simple ? string.Empty : $"; {limit.RuleInWords()}");

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

using System.Globalization;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Web.Evaluations;

/// <summary>A characteristic of a run whose uncertainty has a budget.</summary>
/// <param name="Key">Its name in addresses: <c>d50</c>, or <c>limit-3</c> for the third limit of the specification.</param>
/// <param name="Name">Its name for people: "D50", "Passing 63 µm".</param>
/// <param name="Unit">Its unit; "1" where it has none.</param>
/// <param name="Uncertainty">The uncertainty in that unit, with its budget.</param>
public sealed record BudgetSubject(string Key, string Name, string Unit, CharacteristicUncertainty Uncertainty)
{
    private const string Limit = "limit-";

    /// <summary>The sizes first, then what else the specification limits, in its order.</summary>
    public static IReadOnlyList<BudgetSubject> Of(EvaluationResult result, IReadOnlyList<Limit> limits)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<BudgetSubject> subjects = [.. result.Percentiles.Zip(result.PercentileUncertainties)
            .Where(pair => pair.Second is { Budget.Count: > 0 }).Select(pair => new BudgetSubject(KeyOf(pair.First.Percent), SizeName(pair.First.Percent), "µm", pair.Second!))];
        foreach (var (limit, verdict) in limits.OrderBy(limit => limit.Position).Zip(result.Verdicts))
        {
            if (verdict.Uncertainty is { Budget.Count: > 0 } uncertainty && !subjects.Exists(one => one.Name == limit.Words))
            {
                subjects.Add(new BudgetSubject(Limit + (verdict.Limit + 1).ToString(CultureInfo.InvariantCulture), limit.Words, limit.Unit, uncertainty));
            }
        }

        return subjects;
    }

    /// <summary>The name of a size in addresses.</summary>
    public static string KeyOf(decimal percent) => SizeName(percent).ToLowerInvariant();

    /// <summary>Whether a text can be a key.</summary>
    public static bool IsKey(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.StartsWith(Limit, StringComparison.Ordinal)
            ? int.TryParse(text[Limit.Length..], NumberStyles.None, CultureInfo.InvariantCulture, out var place) && place > 0
            : text.Length > 1 && text[0] == 'd' && decimal.TryParse(text[1..], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _);
    }

    private static string SizeName(decimal percent) => string.Create(CultureInfo.InvariantCulture, $"D{percent:0.###}");
}

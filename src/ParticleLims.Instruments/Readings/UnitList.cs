using System.Globalization;

namespace ParticleLims.Instruments.Readings;

/// <summary>Units and what one of each weighs, as a format lists them: <c>g mg kg ct=0.2</c>.</summary>
internal static class UnitList
{
    private const long MicrogramsPerGram = 1_000_000;
    private const decimal MostGrams = 1_000m;

    private static readonly (string Unit, long Micrograms)[] Known = [("g", MicrogramsPerGram), ("mg", 1_000), ("kg", 1_000 * MicrogramsPerGram)];

    /// <summary>The micrograms of one of each unit. The list has no <see cref="Problems"/>.</summary>
    public static Dictionary<string, long> Read(string list) =>
        ReadingFormatRules.Words(list).Select(Split).ToDictionary(one => one.Unit, one => Micrograms(one.Unit, one.Grams) ?? 0, StringComparer.Ordinal);

    /// <summary>What is wrong with a list, in words.</summary>
    public static IEnumerable<string> Problems(string list)
    {
        var units = ReadingFormatRules.Words(list).Select(Split).ToList();
        if (units.Count == 0)
        {
            yield return "The format admits no unit.";
        }

        foreach (var (unit, grams) in units)
        {
            if (unit.Length == 0 || Micrograms(unit, grams) is null)
            {
                yield return grams is null
                    ? $"The unit '{unit}' is not one of g, mg, kg; say its grams behind it, as in ct=0.2."
                    : $"The unit '{unit}' has no grams from 0.000001 to 1000 in at most six decimals, or is g, mg or kg and needs none: '{grams}'.";
            }
        }

        foreach (var twice in units.GroupBy(one => one.Unit, StringComparer.Ordinal).Where(group => group.Count() > 1))
        {
            yield return $"The unit '{twice.Key}' stands twice.";
        }
    }

    /// <summary>The decimals of a gram in which a step of so many micrograms is shown, 0 to 6.</summary>
    public static int DecimalsOf(long step)
    {
        var (decimals, rest) = (6, step);
        while (decimals > 0 && rest % 10 == 0)
        {
            (decimals, rest) = (decimals - 1, rest / 10);
        }

        return decimals;
    }

    private static (string Unit, string? Grams) Split(string word) =>
        word.Split('=', 2) is [var unit, var grams] ? (unit, grams) : (word, null);

    private static long? Micrograms(string unit, string? grams)
    {
        var known = Array.Find(Known, one => one.Unit == unit).Micrograms;
        if (grams is null || known != 0)
        {
            return grams is null && known != 0 ? known : null;
        }

        var read = decimal.TryParse(grams, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value);
        return read && value is > 0 and <= MostGrams && decimal.Round(value, 6) == value ? decimal.ToInt64(value * MicrogramsPerGram) : null;
    }
}

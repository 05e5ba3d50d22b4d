using System.Globalization;

namespace ParticleLims.Web.Controls;

/// <summary>What was typed where a number is asked for.</summary>
/// <param name="Value">The number; null where nothing was typed or it is refused.</param>
/// <param name="Refusal">What is wrong and what to do, in a sentence; null where nothing is.</param>
public sealed record TypedNumber(decimal? Value, string? Refusal);

/// <summary>
/// Reads numbers that people type: the one place. Only a point is a decimal separator. A comma is refused and never guessed,
/// because "1,500" is one and a half to one reader and fifteen hundred to another.
/// </summary>
public static class NumberReading
{
    /// <summary>Reads a number, or says why not.</summary>
    /// <param name="typed">The text as it was typed.</param>
    /// <param name="least">The least that is meant, included; null asks nothing.</param>
    /// <param name="most">The most that is meant, included; null asks nothing.</param>
    /// <param name="decimals">The most decimals that are kept, 0 to 9.</param>
    public static TypedNumber Read(string? typed, decimal? least = null, decimal? most = null, int decimals = 6)
    {
        var text = typed?.Trim() ?? string.Empty;
        if (text.Length == 0)
        {
            return new TypedNumber(null, null);
        }

        if (Unreadable(text) is { } words)
        {
            return new TypedNumber(null, words);
        }

        return decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            ? OutOfRange(value, least, most, decimals) is { } refusal ? new TypedNumber(null, refusal) : new TypedNumber(value, null)
            : new TypedNumber(null, $"“{text}” is not a number. Type digits only, with a point before the decimals.");
    }

    /// <summary>Reads numbers parted by spaces or semicolons, such as apertures; the first that is wrong is named.</summary>
    public static (IReadOnlyList<decimal> Values, string? Refusal) ReadMany(string? typed, decimal? least = null, decimal? most = null, int decimals = 6)
    {
        var values = new List<decimal>();
        foreach (var part in (typed ?? string.Empty).Split([' ', ';', '\n', '\t'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var number = Read(part, least, most, decimals);
            if (number.Refusal is { } refusal)
            {
                var again = part.Contains(',', StringComparison.Ordinal) ? " Part the numbers by spaces." : string.Empty;
                return ([], (refusal.Contains($"“{part}”", StringComparison.Ordinal) ? refusal : $"“{part}”: {refusal}") + again);
            }

            values.Add(number.Value!.Value);
        }

        return (values, null);
    }

    /// <summary>A number as a field shows it, so that reading it again gives the same.</summary>
    public static string Write(decimal? value) => value is { } given ? given.ToString("0.#########", CultureInfo.InvariantCulture) : string.Empty;

    private static string? Unreadable(string text)
    {
        if (text.Contains(',', StringComparison.Ordinal))
        {
            var single = text.Count(letter => letter == ',') == 1 && !text.Contains('.', StringComparison.Ordinal);
            var advice = single ? $" If you mean the decimal number, type {text.Replace(',', '.')}." : string.Empty;
            return $"“{text}” has a comma. Use a point before the decimals and nothing between thousands.{advice}";
        }

        if (text.Any(char.IsWhiteSpace))
        {
            return $"“{text}” has a space inside. Type the digits without a space.";
        }

        return text.Count(letter => letter == '.') > 1 ? $"“{text}” has more than one point. Use one point before the decimals and nothing between thousands." : null;
    }

    private static string? OutOfRange(decimal value, decimal? least, decimal? most, int decimals)
    {
        if (value < least || value > most)
        {
            return (least, most) switch
            {
                ({ } low, { } high) => string.Create(CultureInfo.InvariantCulture, $"Type a number from {low} to {high}."),
                ({ } low, null) => string.Create(CultureInfo.InvariantCulture, $"Type a number of at least {low}."),
                (_, var high) => string.Create(CultureInfo.InvariantCulture, $"Type a number of at most {high}."),
            };
        }

        return decimal.Round(value, decimals) == value ? null : decimals == 0
            ? "Type a whole number."
            : string.Create(CultureInfo.InvariantCulture, $"At most {decimals} decimals are kept; type fewer.");
    }
}

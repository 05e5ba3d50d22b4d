using System.Globalization;
using System.Text.RegularExpressions;

namespace ParticleLims.Web.Exchange;

/// <summary>In which rows of a table numbers have a point and in which a comma before their decimals: one table may not have both, because then 1.250 could be either.</summary>
internal sealed class DecimalMarks
{
    public int? FirstPoint { get; private set; }

    public int? FirstComma { get; private set; }

    /// <summary>Notes one.</summary>
    public void See(bool comma, int row)
    {
        FirstComma ??= comma ? row : null;
        FirstPoint ??= comma ? null : row;
    }

    /// <summary>What is wrong in words; null where nothing is.</summary>
    public string? Problem => FirstPoint is { } point && FirstComma is { } comma
        ? string.Create(CultureInfo.InvariantCulture, $"Row {point} has a number with a decimal point and row {comma} one with a decimal comma. Write all of them with a point.")
        : null;
}

/// <summary>Reads a number that was written as text: a point before the decimals, or a comma where it can be nothing else.</summary>
internal static partial class NumberText
{
    /// <summary>The number, or what is wrong in words.</summary>
    /// <param name="text">What stands in the cell.</param>
    /// <param name="marks">Takes note of the decimal mark.</param>
    /// <param name="row">The row of the cell.</param>
    public static (decimal? Number, string? Problem) Read(string text, DecimalMarks marks, int row)
    {
        ArgumentNullException.ThrowIfNull(marks);
        if (Shape().Match(text) is not { Success: true } shape)
        {
            return (null, text.Contains(',', StringComparison.Ordinal) && text.Contains('.', StringComparison.Ordinal)
                ? "A number has no marks between its thousands, and a point before its decimals."
                : "A number stands here, alone and with a point before its decimals; its unit stands in the name of the column.");
        }

        var mark = shape.Groups["mark"].Value;
        if (mark == "," && shape.Groups["decimals"].Length == 3 && shape.Groups["whole"].Value is { Length: <= 3 } and not ['0', ..])
        {
            return (null, $"Is that {text.Replace(",", string.Empty, StringComparison.Ordinal)} or {text.Replace(',', '.')}? Write a point before the decimals, and nothing between the thousands.");
        }

        if (mark.Length > 0)
        {
            marks.See(mark == ",", row);
        }

        return decimal.TryParse(text.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number)
            ? (number, null)
            : (null, "The number is too large.");
    }

    [GeneratedRegex(@"\A[+-]?(?<whole>[0-9]{1,20})((?<mark>[.,])(?<decimals>[0-9]{1,20}))?([eE][+-]?[0-9]{1,2})?\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Shape();
}

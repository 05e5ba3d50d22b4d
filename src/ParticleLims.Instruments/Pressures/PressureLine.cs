using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Pressures;

/// <summary>
/// Reads one line of a pressure gauge: a number with a point, perhaps a unit; words before it only where a unit follows. A gauge behind the sieve shows a suction as negative; what counts is its size.
/// A line that is anything else is no reading: nothing is guessed.
/// </summary>
public static partial class PressureLine
{
    /// <summary>The longest line that is read, in characters.</summary>
    public const int Longest = 120;

    /// <summary>The pressure of a line; null when it is none.</summary>
    /// <param name="line">The line without its end.</param>
    /// <param name="unit">The gauge's unit, for lines that name none.</param>
    public static Pressure? Read(string line, PressureUnit unit)
    {
        ArgumentNullException.ThrowIfNull(line);
        if (line.Length > Longest || Reading().Match(line) is not { Success: true } found)
        {
            return null;
        }

        // Words before a bare number may say anything, an error too.
        var named = found.Groups["unit"];
        if (found.Groups["words"].Success && !named.Success)
        {
            return null;
        }

        return (named.Success ? PressureUnits.Find(named.Value) : unit) is { } known && decimal.TryParse(found.Groups["number"].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            ? PressureUnits.Of(value, known)
            : null;
    }

    [GeneratedRegex(@"^\s*(?<words>[A-Za-z][A-Za-z0-9_#.-]*\s*[:=,;]?\s+|[A-Za-z][A-Za-z0-9_#.-]*[:=,;]\s*)*[+-]?\s*(?<number>\d{1,9}(?:\.\d{1,6})?)\s*(?<unit>[A-Za-z][A-Za-z0-9]*)?\s*$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 200)]
    private static partial Regex Reading();
}

using System.Globalization;
using ParticleLims.Analysis.Quantities;
using Sylvan.Data.Csv;

namespace ParticleLims.Instruments.Pressures;

/// <summary>A sample of a pressure file.</summary>
/// <param name="Seconds">Seconds since the first row.</param>
/// <param name="Pressure">The pressure.</param>
public sealed record PressureSample(decimal Seconds, Pressure Pressure);

/// <summary>What a file of pressures held.</summary>
/// <param name="Samples">Its rows in order; empty where it is refused.</param>
/// <param name="Refusal">What is wrong, where, and what to do; null where nothing is.</param>
public sealed record PressureFileReading(IReadOnlyList<PressureSample> Samples, string? Refusal);

/// <summary>
/// Reads a file of comma-separated values from a pressure logger: a row of names, then a time and a pressure in each row. The time is in seconds, or a date or time of day; the unit of the pressure stands in
/// its name, as "kPa" or "pressure (mbar)". Separated by commas, semicolons or tabs; numbers with a point.
/// </summary>
public static class PressureFile
{
    /// <summary>The longest file, in characters.</summary>
    public const int Longest = 2_000_000;

    private const int MostRows = 50_000;
    private static readonly char[] Parts = [' ', '_', '(', ')', '[', ']', ',', ';', '/', ':'];

    /// <summary>Reads a file, or says why not.</summary>
    public static PressureFileReading Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > Longest)
        {
            return Refused("The file is longer than two million characters. Export the time of this sieving alone.");
        }

        try
        {
            using var rows = CsvDataReader.Create(new StringReader(text), new CsvDataReaderOptions { Delimiter = Delimiter(text), HasHeaders = true });
            return Columns(rows) is { } columns ? Rows(rows, columns) : Refused("The first row needs the names of two columns: a time, and a pressure with its unit, as “seconds,kPa”. Known units are Pa, hPa, mbar, kPa, mmH2O and inH2O.");
        }
        catch (Exception wrong) when (wrong is CsvFormatException or CsvRecordTooLargeException or ArgumentException)
        {
            return Refused("The file cannot be read as comma-separated values. Export it again from the logger as CSV.");
        }
    }

    private static PressureFileReading Rows(CsvDataReader rows, (int Time, int Pressure, PressureUnit Unit) columns)
    {
        var samples = new List<PressureSample>();
        decimal? first = null;
        while (rows.Read())
        {
            if (rows.RowFieldCount <= Math.Max(columns.Time, columns.Pressure))
            {
                return Refused($"Line {Line(rows)} has too few columns.");
            }

            if (Seconds(rows.GetString(columns.Time)) is not { } at)
            {
                return Refused($"Line {Line(rows)}: “{Shown(rows.GetString(columns.Time))}” is no time. Seconds with a point, or a time such as 10:41:07, are read.");
            }

            if (!decimal.TryParse(rows.GetString(columns.Pressure), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var value)
                || PressureUnits.Of(Math.Abs(value), columns.Unit) is not { } pressure)
            {
                return Refused($"Line {Line(rows)}: “{Shown(rows.GetString(columns.Pressure))}” is no pressure in {columns.Unit.Symbol()}. Numbers have a point before the decimals, and lie between 0 and 200 kPa.");
            }

            first ??= at;
            if (at < first || (samples.Count > 0 && at - first < samples[^1].Seconds))
            {
                return Refused($"Line {Line(rows)}: the time goes back. Sort the rows by time, and export the time of this sieving alone.");
            }

            samples.Add(new PressureSample(at - first.Value, pressure));
            if (samples.Count > MostRows)
            {
                return Refused("The file has more than 50000 rows. Export the time of this sieving alone.");
            }
        }

        return samples.Count < 2 ? Refused("The file has fewer than two rows of numbers.") : new PressureFileReading(samples, null);
    }

    // The pressure is the column whose name holds a unit; the time is the first of the others.
    private static (int Time, int Pressure, PressureUnit Unit)? Columns(CsvDataReader rows)
    {
        var units = Enumerable.Range(0, rows.FieldCount).Select(column => rows.GetName(column).Split(Parts, StringSplitOptions.RemoveEmptyEntries).Select(PressureUnits.Find).FirstOrDefault(unit => unit is not null)).ToList();
        var pressure = units.FindIndex(unit => unit is not null);
        return pressure < 0 || units.Count < 2 ? null : (pressure == 0 ? 1 : 0, pressure, units[pressure]!.Value);
    }

    private static char Delimiter(string text)
    {
        var head = text.Split('\n', 2)[0];
        return head.Contains('\t', StringComparison.Ordinal) ? '\t' : head.Contains(';', StringComparison.Ordinal) ? ';' : ',';
    }

    private static decimal? Seconds(string text)
    {
        if (decimal.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var seconds))
        {
            return seconds;
        }

        if (TimeSpan.TryParse(text.Trim(), CultureInfo.InvariantCulture, out var time) && time >= TimeSpan.Zero)
        {
            return (decimal)time.Ticks / TimeSpan.TicksPerSecond;
        }

        return DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AllowWhiteSpaces | DateTimeStyles.RoundtripKind, out var moment) ? (decimal)moment.Ticks / TimeSpan.TicksPerSecond : null;
    }

    private static string Line(CsvDataReader rows) => (rows.RowNumber + 1).ToString(CultureInfo.InvariantCulture);

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "…" : text;

    private static PressureFileReading Refused(string words) => new([], words);
}

using System.Globalization;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Web.Controls;

/// <summary>Quantities as people read them: the one place where whole micrograms, nanometres and pascals become g, µm and kPa. Always with a decimal point.</summary>
public static class Say
{
    /// <summary>A mass in grams with its unit: <c>12.345 g</c>; a dash when there is none.</summary>
    /// <param name="mass">The mass.</param>
    /// <param name="decimals">Decimals shown, as the balance shows them.</param>
    public static string Grams(Mass? mass, int decimals = 3) => mass is { } given ? Number(given.Grams, decimals) + " g" : "–";

    /// <summary>An aperture in micrometres with its unit: <c>63 µm</c>; a dash when there is none.</summary>
    public static string Micrometres(Aperture? aperture) => aperture is { } given ? given.Micrometres.ToString("0.###", CultureInfo.InvariantCulture) + " µm" : "–";

    /// <summary>A size in micrometres that was computed: <c>41.7 µm</c>; a dash when there is none.</summary>
    public static string Micrometres(double? micrometres, int decimals = 1) => micrometres is { } given ? Number(given, decimals) + " µm" : "–";

    /// <summary>A percentage kept as an exact fraction, rounded once: <c>97.35 %</c>; a dash when there is none.</summary>
    public static string Percent(Ratio? percent, int decimals = 2) => percent is { } given ? given.ToString(decimals, Rounding.HalfAwayFromZero) + " %" : "–";

    /// <summary>A percentage that was computed: <c>97.35 %</c>; a dash when there is none.</summary>
    public static string Percent(double? percent, int decimals = 2) => percent is { } given ? Number(given, decimals) + " %" : "–";

    /// <summary>A differential pressure in kilopascals: <c>3.2 kPa</c>; a dash when there is none.</summary>
    public static string Kilopascals(Pressure? pressure) => pressure is { } given ? given.Kilopascals.ToString("0.0##", CultureInfo.InvariantCulture) + " kPa" : "–";

    /// <summary>A time span in minutes and seconds: <c>3 min 05 s</c>, or <c>45 s</c>.</summary>
    public static string Seconds(int seconds) => seconds < 60
        ? string.Create(CultureInfo.InvariantCulture, $"{seconds} s")
        : string.Create(CultureInfo.InvariantCulture, $"{seconds / 60} min {seconds % 60:00} s");

    /// <summary>A count with its noun: <c>1 run</c>, <c>3 runs</c>.</summary>
    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>The size of a file: <c>812 bytes</c>, <c>72.7 kB</c>, <c>1.4 MB</c>; a thousand bytes are a kB (IEC 80000-13).</summary>
    public static string Size(long bytes) => bytes switch
    {
        < 1_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes} {(bytes == 1 ? "byte" : "bytes")}"),
        < 999_950 => Number(bytes / 1_000m, 1) + " kB",
        _ => Number(bytes / 1_000_000m, 1) + " MB",
    };

    /// <summary>A number with so many decimals.</summary>
    public static string Number(decimal value, int decimals) => decimal.Round(value, decimals, MidpointRounding.AwayFromZero).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>A computed number with so many decimals; <c>not a number</c> stays visible.</summary>
    public static string Number(double value, int decimals) => value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}

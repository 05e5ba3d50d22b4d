using System.Globalization;

namespace ParticleLims.Pictures.Plots;

/// <summary>Numbers as they are read out and shown on hovering.</summary>
internal static class Words
{
    public static string Size(double micrometres) => $"{Significant(micrometres)} µm";

    public static string Percent(double percent) => Math.Abs(percent) < 1e7
        ? string.Create(CultureInfo.InvariantCulture, $"{percent:0.0##} %")
        : Significant(percent) + " %";

    public static string Reading(CurvePoint point, double coverage)
    {
        var aperture = point.ApertureStandardUncertaintyMicrometres is { } width ? $" ± {Size(width * coverage)}" : string.Empty;
        return $"{Size(point.ApertureMicrometres)}{aperture}: {Percent(point.PassingPercent)} passing{Expanded(point, coverage)}";
    }

    public static string Residue(CurvePoint point, double coverage) =>
        $"{Size(point.ApertureMicrometres)}: {Percent(100 - point.PassingPercent)} residue{Expanded(point, coverage)}";

    public static string Mark(PercentileMark mark)
    {
        var interval = mark.Interval is { } range ? $" ({range.Coverage} interval: {Size(range.FromMicrometres)} to {Size(range.ToMicrometres)})" : string.Empty;
        return $"{mark.Label}: {Percent(mark.PassingPercent)} passing at {Size(mark.Micrometres)}{interval}";
    }

    private static string Expanded(CurvePoint point, double coverage) => point.StandardUncertaintyPercent is { } u
        ? string.Create(CultureInfo.InvariantCulture, $", ± {u * coverage:0.0##} % (k = {coverage:0.##})")
        : string.Empty;

    public static string Window(CurveGate gate)
    {
        var where = gate.ApertureMicrometres is { } aperture ? $"passing at {Size(aperture)}" : $"size at {Percent(gate.PassingPercent!.Value)} passing";
        Func<double, string> bound = gate.ApertureMicrometres.HasValue ? Percent : Size;
        var limits = (gate.Lower, gate.Upper) switch
        {
            ({ } lower, { } upper) => $"{bound(lower)} to {bound(upper)}",
            ({ } lower, null) => $"at least {bound(lower)}",
            (null, { } upper) => $"at most {bound(upper)}",
            _ => "open",
        };
        return $"Limit for the {where}: {limits}";
    }

    /// <summary>At least four significant digits, without trailing zeros.</summary>
    public static string Significant(double value)
    {
        if (Math.Abs(value) is >= 1e7 or (> 0 and < 1e-5))
        {
            return value.ToString("0.###E+0", CultureInfo.InvariantCulture);
        }

        var decimals = value == 0 ? 0 : Math.Clamp(3 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 9);
        return Math.Round(value, decimals).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
    }
}

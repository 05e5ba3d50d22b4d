using System.Globalization;

namespace ParticleLims.Pictures.Plots;

/// <summary>Numbers as they are read out and shown on hovering.</summary>
internal static class Words
{
    public static string Size(double micrometres) => $"{Significant(micrometres)} µm";

    public static string Percent(double percent) => string.Create(CultureInfo.InvariantCulture, $"{percent:0.0##} %");

    public static string Reading(CurvePoint point, double coverage)
    {
        var text = $"{Size(point.ApertureMicrometres)}: {Percent(point.PassingPercent)} passing";
        return point.StandardUncertaintyPercent is { } u
            ? text + string.Create(CultureInfo.InvariantCulture, $", ± {u * coverage:0.0##} % (k = {coverage:0.##})")
            : text;
    }

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
        var decimals = value == 0 ? 0 : Math.Clamp(3 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 9);
        return Math.Round(value, decimals).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
    }
}

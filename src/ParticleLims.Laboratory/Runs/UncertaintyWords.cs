using System.Globalization;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Uncertainties as people read them.</summary>
public static class UncertaintyWords
{
    private const int Digits = 2;

    /// <summary>"± 0.52 µm": two significant digits (GUM, JCGM 100:2008, 7.2.6), with the unit unless that is 1.</summary>
    public static string PlusMinus(double expanded, string unit) => $"± {Number(expanded)}{(unit == "1" ? string.Empty : " " + unit)}";

    /// <summary>Two significant digits without a power of ten.</summary>
    public static string Number(double value)
    {
        if (!(value > 0))
        {
            return "0";
        }

        return value.ToString("F" + Decimals(value).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }

    /// <summary>The decimals that show two significant digits of a number above zero; at most nine.</summary>
    public static int Decimals(double value) => Math.Clamp(Digits - 1 - (int)Math.Floor(Math.Log10(value)), 0, 9);
}

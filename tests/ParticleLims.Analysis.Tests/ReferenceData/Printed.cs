using System.Globalization;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.ReferenceData;

/// <summary>Brings a computed value to the form in which a source prints it.</summary>
internal static class Printed
{
    /// <summary>As many decimals as the printed text has.</summary>
    public static int Decimals(string printed) =>
        printed.Contains('.', StringComparison.Ordinal) ? printed.Length - printed.IndexOf('.', StringComparison.Ordinal) - 1 : 0;

    public static string Like(string printed, Ratio value) => value.ToString(Decimals(printed), Rounding.HalfEven);

    public static string Like(string printed, double value) => Like(printed, Ratio.FromDouble(value));

    /// <summary>Rounded to so many significant digits, as a number, so that zeros dropped in print do not matter.</summary>
    public static decimal Significant(double value, int digits)
    {
        var decimals = digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return decimal.Parse(Ratio.FromDouble(value).ToString(decimals, Rounding.HalfEven), CultureInfo.InvariantCulture);
    }
}

using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>The numerical tolerance of a standard uncertainty: u = c 10^l with so many digits in the whole number c has δ = 10^l / 2 (JCGM 101:2008, 7.9.2).</summary>
internal static class NumericalTolerance
{
    /// <summary>δ in the unit of u; zero for u = 0.</summary>
    public static double Of(double standardUncertainty, int digits)
    {
        if (!(standardUncertainty > 0))
        {
            return 0;
        }

        var power = Math.Floor(NaturalLogarithm.Of(standardUncertainty) / 2.302585092994046) - (digits - 1);
        var unit = PowerOfTen((int)power);

        // 9.96 with two digits is 10, which is 1.0 with a unit ten times as large.
        var rounded = Math.Round(standardUncertainty / unit);
        return (rounded >= PowerOfTen(digits) ? unit * 10 : unit) / 2;
    }

    private static double PowerOfTen(int power)
    {
        var value = 1.0;
        for (var i = Math.Abs(power); i > 0; i--)
        {
            value *= 10;
        }

        return power < 0 ? 1 / value : value;
    }
}

using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>The ordinate of the Rosin-Rammler net, ln ln(1/R), in which that distribution is a straight line over ln x.</summary>
internal static class RosinRammlerNet
{
    /// <summary>ln ln(1/R) for a percentage passing strictly between 0 and 100 %.</summary>
    public static double Ordinate(Ratio passingPercent)
    {
        var passing = passingPercent / Ratio.Hundred;
        var q = passing.ToDouble();
        var negativeLog = q < 0.25
            ? -NaturalLogarithm.OfOnePlus(-q)
            : -NaturalLogarithm.Of((Ratio.One - passing).ToDouble());
        return NaturalLogarithm.Of(negativeLog);
    }
}

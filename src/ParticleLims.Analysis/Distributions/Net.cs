using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>A printed net in which one kind of distribution is a straight line over ln x; its ordinate has no end at 0 and 100 %.</summary>
internal abstract class Net
{
    /// <summary>ln ln(1/R).</summary>
    public static Net RosinRammler { get; } = new RosinRammlerNet();

    /// <summary>The normal quantile of Q.</summary>
    public static Net LogNormal { get; } = new LogNormalNet();

    /// <summary>The ordinate of a percentage passing strictly between 0 and 100 %.</summary>
    public abstract double Ordinate(Ratio passingPercent);

    /// <summary>The percentage passing of an ordinate, from 0 to 100 %.</summary>
    public abstract double Percent(double ordinate);

    private sealed class RosinRammlerNet : Net
    {
        public override double Ordinate(Ratio passingPercent)
        {
            var passing = passingPercent / Ratio.Hundred;
            var q = passing.ToDouble();
            var logarithm = q < 0.25
                ? -NaturalLogarithm.OfOnePlus(-q)
                : -NaturalLogarithm.Of((Ratio.One - passing).ToDouble());
            return NaturalLogarithm.Of(logarithm);
        }

        /// <summary>Beyond 6.5 the residue, exp(-665), is no longer a number that matters.</summary>
        public override double Percent(double ordinate) =>
            -100 * Exponential.MinusOne(-Exponential.Of(Math.Clamp(ordinate, -700, 6.5)));
    }

    private sealed class LogNormalNet : Net
    {
        public override double Ordinate(Ratio passingPercent)
        {
            var passing = passingPercent / Ratio.Hundred;
            return NormalDistribution.Quantile(passing.ToDouble(), (Ratio.One - passing).ToDouble());
        }

        public override double Percent(double ordinate) => 100 * NormalDistribution.Below(ordinate);
    }
}

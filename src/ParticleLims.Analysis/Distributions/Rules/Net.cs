using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions.Rules;

/// <summary>A printed net in which one kind of distribution is a straight line over ln x; its ordinate has no end at 0 and 100 %.</summary>
internal abstract class Net
{
    /// <summary>ln ln(1/R).</summary>
    public static Net RosinRammler { get; } = new RosinRammlerNet();

    /// <summary>The normal quantile of Q.</summary>
    public static Net LogNormal { get; } = new LogNormalNet();

    /// <summary>ln Q; its end is at 100 %, where the ordinate is zero.</summary>
    public static Net GatesGaudinSchuhmann { get; } = new PowerNet(0);

    /// <summary>ln Q without that end: percentages beyond 100 % too, as a fit needs them that looks on one side of the end only.</summary>
    public static Net PowerLaw { get; } = new PowerNet(double.PositiveInfinity);

    /// <summary>The ordinate of a percentage passing strictly between 0 and 100 %.</summary>
    public abstract double Ordinate(Ratio passingPercent);

    /// <summary>The ordinate of a percentage passing, strictly between 0 and 100 %, that is no exact fraction.</summary>
    public abstract double OrdinateOf(double passingPercent);

    /// <summary>The percentage passing of an ordinate, from 0 to 100 %.</summary>
    public abstract double Percent(double ordinate);

    /// <summary>The percentage passing of an ordinate and its derivative by the ordinate.</summary>
    public abstract double Percent(double ordinate, out double slope);

    /// <summary>The same of several ordinates, to the same bits; the slopes may be left out.</summary>
    public virtual void Percents(ReadOnlySpan<double> ordinates, Span<double> percents, Span<double> slopes)
    {
        for (var i = 0; i < ordinates.Length; i++)
        {
            if (slopes.IsEmpty)
            {
                percents[i] = Percent(ordinates[i]);
            }
            else
            {
                percents[i] = Percent(ordinates[i], out slopes[i]);
            }
        }
    }

    private sealed class RosinRammlerNet : Net
    {
        /// <summary>Beyond it the residue, exp(-665), is no longer a number that matters.</summary>
        private const double Highest = 6.5;

        public override double Ordinate(Ratio passingPercent)
        {
            var passing = passingPercent / Ratio.Hundred;
            var q = passing.ToDouble();
            var logarithm = q < 0.25
                ? -NaturalLogarithm.OfOnePlus(-q)
                : -NaturalLogarithm.Of((Ratio.One - passing).ToDouble());
            return NaturalLogarithm.Of(logarithm);
        }

        public override double OrdinateOf(double passingPercent) => NaturalLogarithm.Of(-NaturalLogarithm.OfOnePlus(-passingPercent / 100));

        public override double Percent(double ordinate) =>
            -100 * Exponential.MinusOne(-Exponential.Of(Math.Clamp(ordinate, -700, Highest)));

        public override double Percent(double ordinate, out double slope)
        {
            var power = PolynomialExponential.Of(Math.Min(ordinate, Highest));
            var less = PolynomialExponential.MinusOne(-power);
            slope = 100 * power * (1 + less);
            return -100 * less;
        }
    }

    private sealed class LogNormalNet : Net
    {
        /// <summary>Beyond it the density is no longer a number that matters.</summary>
        private const double Farthest = 37;

        public override double Ordinate(Ratio passingPercent)
        {
            var passing = passingPercent / Ratio.Hundred;
            return NormalDistribution.Quantile(passing.ToDouble(), (Ratio.One - passing).ToDouble());
        }

        public override double OrdinateOf(double passingPercent) => NormalDistribution.Quantile(passingPercent / 100, 1 - (passingPercent / 100));

        public override double Percent(double ordinate) => 100 * NormalDistribution.Below(ordinate);

        public override void Percents(ReadOnlySpan<double> ordinates, Span<double> percents, Span<double> slopes)
        {
            NormalDistribution.Below(ordinates, percents);
            for (var i = 0; i < ordinates.Length; i++)
            {
                percents[i] = 100 * percents[i];
                if (!slopes.IsEmpty)
                {
                    slopes[i] = Slope(ordinates[i]);
                }
            }
        }

        public override double Percent(double ordinate, out double slope)
        {
            slope = Slope(ordinate);
            return Percent(ordinate);
        }

        private static double Slope(double ordinate) => Math.Abs(ordinate) > Farthest ? 0 : 100 * NormalDistribution.Density(ordinate);
    }

    private sealed class PowerNet(double end) : Net
    {
        public override double Ordinate(Ratio passingPercent) => NaturalLogarithm.Of((passingPercent / Ratio.Hundred).ToDouble());

        public override double OrdinateOf(double passingPercent) => NaturalLogarithm.Of(passingPercent / 100);

        public override double Percent(double ordinate) => ordinate >= end ? 100 : 100 * Exponential.Of(Math.Max(ordinate, -700));

        /// <summary>At the top size the curve has a corner; the derivative there is that of the level side.</summary>
        public override double Percent(double ordinate, out double slope)
        {
            var percent = ordinate >= end ? 100 : 100 * PolynomialExponential.Of(ordinate);
            slope = ordinate >= end ? 0 : percent;
            return percent;
        }
    }
}

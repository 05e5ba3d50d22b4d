using System.Runtime.Intrinsics;
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
    public double Ordinate(Ratio passingPercent)
    {
        var share = passingPercent / Ratio.Hundred;
        return Ordinate(share.ToDouble(), (Ratio.One - share).ToDouble());
    }

    /// <summary>The same of the passing share strictly between 0 and 1 and of what is left of one, each rounded by itself.</summary>
    public abstract double Ordinate(double share, double rest);

    /// <summary>The ordinate of a percentage passing, strictly between 0 and 100 %, that is no exact fraction.</summary>
    public abstract double OrdinateOf(double passingPercent);

    /// <summary>The percentage passing of an ordinate, from 0 to 100 %.</summary>
    public abstract double Percent(double ordinate);

    /// <summary>The percentage passing of an ordinate and its derivative by the ordinate.</summary>
    public abstract double Percent(double ordinate, out double slope);

    /// <summary>The derivative alone.</summary>
    public virtual double Slope(double ordinate)
    {
        Percent(ordinate, out var slope);
        return slope;
    }

    /// <summary>The percentages of several ordinates, four by four, to the same bits as one by one.</summary>
    public abstract void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents);

    /// <summary>The same with their derivatives.</summary>
    public abstract void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents, Span<Vector256<double>> slopes);

    /// <summary>How many fours hold so many numbers.</summary>
    public static int Fours(int count) => (count + Vector256<double>.Count - 1) / Vector256<double>.Count;

    private sealed class RosinRammlerNet : Net
    {
        /// <summary>Beyond it the residue, exp(-665), is no longer a number that matters.</summary>
        private const double Highest = 6.5;

        public override double Ordinate(double share, double rest) => NaturalLogarithm.Of(share < 0.25 ? -NaturalLogarithm.OfOnePlus(-share) : -NaturalLogarithm.Of(rest));

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

        public override void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents)
        {
            for (var i = 0; i < ordinates.Length; i++)
            {
                var ordinate = Vector256.Min(Vector256.Max(ordinates[i], Vector256.Create(-700.0)), Vector256.Create(Highest));
                percents[i] = (FourExponentials.MinusOne(-FourExponentials.Of(ordinate)) * -100);
            }
        }

        public override void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents, Span<Vector256<double>> slopes)
        {
            for (var i = 0; i < ordinates.Length; i++)
            {
                var power = FourExponentials.Polynomial(Vector256.Min(ordinates[i], Vector256.Create(Highest)));
                var less = FourExponentials.PolynomialMinusOne(-power);
                slopes[i] = (power * 100 * (Vector256<double>.One + less));
                percents[i] = (less * -100);
            }
        }
    }

    private sealed class LogNormalNet : Net
    {
        /// <summary>Beyond it the density is no longer a number that matters.</summary>
        private const double Farthest = 37;

        public override double Ordinate(double share, double rest) => NormalDistribution.Quantile(share, rest);

        public override double OrdinateOf(double passingPercent) => NormalDistribution.Quantile(passingPercent / 100, 1 - (passingPercent / 100));

        public override double Percent(double ordinate) => 100 * NormalDistribution.Below(ordinate);

        public override double Percent(double ordinate, out double slope)
        {
            slope = Slope(ordinate);
            return Percent(ordinate);
        }

        public override double Slope(double ordinate) => Math.Abs(ordinate) > Farthest ? 0 : 100 * NormalDistribution.Density(ordinate);

        public override void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents)
        {
            Span<Vector256<double>> slopes = stackalloc Vector256<double>[ordinates.Length];
            Percents(ordinates, percents, slopes);
        }

        public override void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents, Span<Vector256<double>> slopes)
        {
            NormalDistribution.Below(ordinates, percents, slopes);
            for (var i = 0; i < ordinates.Length; i++)
            {
                percents[i] = (percents[i] * 100);
                slopes[i] = (slopes[i] * 100);
            }
        }
    }

    private sealed class PowerNet(double end) : Net
    {
        public override double Ordinate(double share, double rest) => NaturalLogarithm.Of(share);

        public override double OrdinateOf(double passingPercent) => NaturalLogarithm.Of(passingPercent / 100);

        public override double Percent(double ordinate) => ordinate >= end ? 100 : 100 * Exponential.Of(Math.Max(ordinate, -700));

        /// <summary>At the top size the curve has a corner; the derivative there is that of the level side.</summary>
        public override double Percent(double ordinate, out double slope)
        {
            var percent = ordinate >= end ? 100 : 100 * PolynomialExponential.Of(ordinate);
            slope = ordinate >= end ? 0 : percent;
            return percent;
        }

        public override void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents)
        {
            for (var i = 0; i < ordinates.Length; i++)
            {
                var ordinate = ordinates[i];
                var inside = FourExponentials.Of(Vector256.Min(Vector256.Max(ordinate, Vector256.Create(-700.0)), Vector256.Create(Math.Min(end, 700)))) * 100;
                percents[i] = Vector256.ConditionalSelect(IsBeyond(ordinate), Vector256.Create(100.0), inside);
            }
        }

        public override void Percents(ReadOnlySpan<Vector256<double>> ordinates, Span<Vector256<double>> percents, Span<Vector256<double>> slopes)
        {
            for (var i = 0; i < ordinates.Length; i++)
            {
                var ordinate = ordinates[i];
                var (beyond, inside) = (IsBeyond(ordinate), FourExponentials.Polynomial(ordinate) * 100);
                percents[i] = Vector256.ConditionalSelect(beyond, Vector256.Create(100.0), inside);
                slopes[i] = Vector256.ConditionalSelect(beyond, Vector256<double>.Zero, inside);
            }
        }

        private Vector256<double> IsBeyond(Vector256<double> ordinate) => Vector256.GreaterThanOrEqual(ordinate, Vector256.Create(end));
    }
}

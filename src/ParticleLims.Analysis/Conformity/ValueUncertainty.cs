using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Conformity;

/// <summary>What is known of the uncertainty of a value that is held against a limit, in the value's unit.</summary>
/// <param name="Standard">The standard uncertainty u.</param>
/// <param name="Expanded">The expanded uncertainty U.</param>
/// <param name="IsSure">Whether the relation of the value (that it is a value, or lies below or above a bound) holds with the coverage probability.</param>
/// <param name="ShareWithin">The probability of lying within two numbers by trials, each of which may be infinite; null for that of the normal distribution.</param>
internal sealed record ValueUncertainty(double Standard, double Expanded, bool IsSure, Func<double, double, double?>? ShareWithin)
{
    /// <summary>The probability that the true value lies within the limits (JCGM 106:2012, 7.2 and 7.4).</summary>
    public double ProbabilityWithin(double value, double lower, double upper)
    {
        if (ShareWithin?.Invoke(lower, upper) is { } share)
        {
            return share;
        }

        return Standard > 0 ? Math.Max(0, Below(upper, value) - Below(lower, value)) : value >= lower && value <= upper ? 1 : 0;
    }

    private double Below(double limit, double value) => limit switch
    {
        double.PositiveInfinity => 1,
        double.NegativeInfinity => 0,
        _ => NormalDistribution.Below((limit - value) / Standard),
    };
}

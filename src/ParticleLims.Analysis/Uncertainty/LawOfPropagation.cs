namespace ParticleLims.Analysis.Uncertainty;

/// <summary>The law of propagation of uncertainty (GUM, JCGM 100:2008, 5.1.2 and 5.2.2; docs/science/uncertainty-propagation.md).</summary>
public static class LawOfPropagation
{
    /// <summary>The combined standard uncertainty of independent inputs, the root of the sum of (c_i u_i)²; in the unit of the output (GUM 5.1.2).</summary>
    /// <returns>In the unit of the output; without unit where the sensitivities are relative.</returns>
    /// <param name="sensitivities">The sensitivity coefficients c_i.</param>
    /// <param name="standardUncertainties">The standard uncertainties u_i, as many.</param>
    /// <exception cref="ArgumentException">The two are not as many.</exception>
    public static double Combine(ReadOnlySpan<double> sensitivities, ReadOnlySpan<double> standardUncertainties)
    {
        if (sensitivities.Length != standardUncertainties.Length)
        {
            throw new ArgumentException("Each input has one sensitivity coefficient and one standard uncertainty.", nameof(sensitivities));
        }

        var sum = 0.0;
        for (var i = 0; i < sensitivities.Length; i++)
        {
            var part = sensitivities[i] * standardUncertainties[i];
            sum += part * part;
        }

        return Math.Sqrt(sum);
    }

    /// <summary>The covariances of outputs from those of correlated inputs, J V Jᵀ, row after row (GUM H.2, equation H.9; JCGM 102:2011, 6.2.1.3).</summary>
    /// <param name="sensitivities">J: for each output one row of sensitivity coefficients.</param>
    /// <param name="covariance">V: the inputs' covariances, row after row.</param>
    /// <param name="inputs">How many inputs there are.</param>
    /// <exception cref="ArgumentException">The sizes do not fit each other.</exception>
    public static double[] Covariance(ReadOnlySpan<double> sensitivities, ReadOnlySpan<double> covariance, int inputs)
    {
        if (inputs < 1 || sensitivities.Length % inputs != 0 || covariance.Length != inputs * inputs)
        {
            throw new ArgumentException("J has one column for each input, and V is square.", nameof(inputs));
        }

        var outputs = sensitivities.Length / inputs;
        var result = new double[outputs * outputs];
        for (var a = 0; a < outputs; a++)
        {
            for (var b = 0; b < outputs; b++)
            {
                result[(a * outputs) + b] = Product(sensitivities.Slice(a * inputs, inputs), covariance, sensitivities.Slice(b * inputs, inputs));
            }
        }

        return result;
    }

    /// <summary>
    /// The effective degrees of freedom of a combined uncertainty, u⁴ over the sum of u_i⁴/ν_i (Welch and Satterthwaite; GUM G.4.1, equation G.2b); inputs with infinitely many take no part in the sum.
    /// </summary>
    /// <param name="contributions">The contributions |c_i| u_i to the combined uncertainty.</param>
    /// <param name="degreesOfFreedom">The degrees of freedom ν_i, above zero; infinity is allowed.</param>
    /// <returns>The effective degrees of freedom, without unit, not rounded down; infinity where all are.</returns>
    /// <exception cref="ArgumentException">The two are not as many.</exception>
    public static double EffectiveDegreesOfFreedom(ReadOnlySpan<double> contributions, ReadOnlySpan<double> degreesOfFreedom)
    {
        if (contributions.Length != degreesOfFreedom.Length)
        {
            throw new ArgumentException("Each contribution has its degrees of freedom.", nameof(contributions));
        }

        double variance = 0, sum = 0;
        for (var i = 0; i < contributions.Length; i++)
        {
            var square = contributions[i] * contributions[i];
            variance += square;
            sum += square * square / degreesOfFreedom[i];
        }

        return sum > 0 ? variance * variance / sum : double.PositiveInfinity;
    }

    /// <summary>a V bᵀ.</summary>
    internal static double Product(ReadOnlySpan<double> a, ReadOnlySpan<double> covariance, ReadOnlySpan<double> b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
        {
            for (var j = 0; j < b.Length; j++)
            {
                sum += a[i] * covariance[(i * b.Length) + j] * b[j];
            }
        }

        return sum;
    }
}

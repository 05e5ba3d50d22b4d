using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>
/// Taking a test portion draws its particles from the sample by chance, so the percentages of one portion vary as shares of a count do: cov(Q_i, Q_j) = c Q_i (100 - Q_j) for i before j, with c
/// set by the uncertainty near 50 %. Separate portions are drawn apart and do not vary together (docs/science/uncertainty-inputs.md).
/// </summary>
internal static class PortionTaking
{
    private const double Half = 50;

    /// <summary>The covariances in percent squared, row after row; null where nothing is stated.</summary>
    public static double[]? Covariance(double standardUncertaintyPercent, Procedure procedure, ReadOnlySpan<double> percent)
    {
        if (!(standardUncertaintyPercent > 0) || procedure == Procedure.GivenDistribution)
        {
            return null;
        }

        var scale = standardUncertaintyPercent / Half * (standardUncertaintyPercent / Half);
        var (count, apart) = (percent.Length, procedure == Procedure.SeparatePortions);
        var covariance = new double[count * count];
        for (var i = 0; i < count; i++)
        {
            for (var j = 0; j < count; j++)
            {
                covariance[(i * count) + j] = i == j || !apart ? scale * Math.Min(percent[i], percent[j]) * (100 - Math.Max(percent[i], percent[j])) : 0;
            }
        }

        return covariance;
    }

    /// <summary>The lower triangle L with L Lᵀ the covariances (Cholesky), row after row; a percentage of 0 or 100 %, or the same as its neighbour's, adds no new direction.</summary>
    public static double[] Triangle(ReadOnlySpan<double> covariance, int count)
    {
        var lower = new double[count * count];
        for (var i = 0; i < count; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var rest = covariance[(i * count) + j];
                for (var k = 0; k < j; k++)
                {
                    rest -= lower[(i * count) + k] * lower[(j * count) + k];
                }

                if (i == j)
                {
                    lower[(i * count) + i] = rest > 1e-12 * covariance[(i * count) + i] ? Math.Sqrt(rest) : 0;
                }
                else
                {
                    var diagonal = lower[(j * count) + j];
                    lower[(i * count) + j] = diagonal > 0 ? rest / diagonal : 0;
                }
            }
        }

        return lower;
    }
}

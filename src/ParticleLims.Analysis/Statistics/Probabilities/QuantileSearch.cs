namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>The place where a rising function reaches a value, halved down to neighbouring doubles: slow, and the same on every machine.</summary>
internal static class QuantileSearch
{
    /// <summary>The greatest number from zero upwards at which the rising function is not yet above the level; at most 1e300.</summary>
    public static double FromZero(Func<double, double> rising, double level)
    {
        double low = 0, high = 1;
        while (rising(high) <= level && high < 1e300)
        {
            (low, high) = (high, high * 2);
        }

        while (true)
        {
            var middle = low + ((high - low) / 2);
            if (middle <= low || middle >= high)
            {
                return low;
            }

            (low, high) = rising(middle) <= level ? (middle, high) : (low, middle);
        }
    }
}

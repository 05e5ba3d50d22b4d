namespace ParticleLims.Laboratory.Demonstration.Model;

/// <summary>The true size distribution of a powder in the model.</summary>
internal abstract record Powder
{
    /// <summary>The fraction (0 to 1) of the mass that is finer than so many micrometres.</summary>
    public abstract double FinerThan(double micrometres);

    /// <summary>The same powder with every size multiplied.</summary>
    public abstract Powder Coarser(double factor);
}

/// <summary>Rosin-Rammler: finer = 1 - exp(-(x / size)^slope), size in µm.</summary>
internal sealed record RosinRammlerPowder(double Size, double Slope) : Powder
{
    /// <summary>From the median in µm.</summary>
    public static RosinRammlerPowder OfMedian(double median, double slope) => new(median / Math.Pow(Math.Log(2), 1 / slope), slope);

    /// <inheritdoc />
    public override double FinerThan(double micrometres) => 1 - Math.Exp(-Math.Pow(micrometres / Size, Slope));

    /// <inheritdoc />
    public override Powder Coarser(double factor) => this with { Size = Size * factor };
}

/// <summary>Log-normal: median in µm, deviation of the natural logarithm.</summary>
internal sealed record LogNormalPowder(double Median, double Deviation) : Powder
{
    /// <inheritdoc />
    public override double FinerThan(double micrometres) => Below(Math.Log(micrometres / Median) / Deviation);

    /// <inheritdoc />
    public override Powder Coarser(double factor) => this with { Median = Median * factor };

    /// <summary>The standard normal distribution within 1e-7 (Abramowitz and Stegun 26.2.17, coefficients from memory, checked by a test).</summary>
    private static double Below(double z)
    {
        var t = 1 / (1 + (0.2316419 * Math.Abs(z)));
        var polynomial = t * (0.319381530 + (t * (-0.356563782 + (t * (1.781477937 + (t * (-1.821255978 + (t * 1.330274429))))))));
        var tail = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * polynomial;
        return z < 0 ? tail : 1 - tail;
    }
}

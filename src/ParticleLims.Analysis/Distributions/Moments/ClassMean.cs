namespace ParticleLims.Analysis.Distributions.Moments;

/// <summary>What is taken for the sizes inside a class, of which only the ends are known.</summary>
public enum ClassMean
{
    /// <summary>The density q3 is constant over the class, and the powers are integrated exactly (ISO 9276-2). The default.</summary>
    ConstantDensity,

    /// <summary>All of it has the middle of the two apertures.</summary>
    ArithmeticMiddle,

    /// <summary>All of it has the square root of the product of the two apertures.</summary>
    GeometricMiddle,
}

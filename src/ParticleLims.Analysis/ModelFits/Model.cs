namespace ParticleLims.Analysis.ModelFits;

/// <summary>A distribution with two parameters.</summary>
public enum Model
{
    /// <summary>Rosin-Rammler-Sperling-Bennett: R = exp(-(x/x')^n).</summary>
    RosinRammler,
}

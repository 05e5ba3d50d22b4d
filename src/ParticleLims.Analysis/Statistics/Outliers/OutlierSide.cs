namespace ParticleLims.Analysis.Statistics.Outliers;

/// <summary>Where an outlier is looked for.</summary>
public enum OutlierSide
{
    /// <summary>At whichever end lies farther out.</summary>
    Either,

    /// <summary>At the lowest values only, decided before the values were seen.</summary>
    Lowest,

    /// <summary>At the highest values only, decided before the values were seen.</summary>
    Highest,
}

namespace ParticleLims.Analysis.Sieves;

/// <summary>The series of preferred numbers an aperture belongs to (ISO 565:1990).</summary>
[Flags]
public enum SieveSeriesMembership
{
    /// <summary>None of them.</summary>
    None = 0,

    /// <summary>R 20/3, the principal sizes: every third of the twenty numbers to a decade.</summary>
    R20Over3 = 1,

    /// <summary>R 20, supplementary sizes: twenty numbers to a decade.</summary>
    R20 = 2,

    /// <summary>R 40/3, supplementary sizes: every third of forty numbers to a decade.</summary>
    R40Over3 = 4,
}

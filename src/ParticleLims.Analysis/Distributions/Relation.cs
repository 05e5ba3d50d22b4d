namespace ParticleLims.Analysis.Distributions;

/// <summary>How a reported number relates to the true characteristic.</summary>
public enum Relation
{
    /// <summary>It is the value: "=".</summary>
    Equal,

    /// <summary>The value lies below the number, outside the measured range: "&lt;".</summary>
    Below,

    /// <summary>The value lies above the number, outside the measured range: "&gt;".</summary>
    Above,
}

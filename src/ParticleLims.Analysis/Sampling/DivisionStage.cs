namespace ParticleLims.Analysis.Sampling;

/// <summary>One division of a sample: what was taken from what.</summary>
public sealed record DivisionStage
{
    /// <summary>Gy's constant C at the top size of this stage, in grams per cubic centimetre.</summary>
    public required double Constant { get; init; }

    /// <summary>The top size d in cm, in the centimetre unit.</summary>
    public required double TopSizeCentimetres { get; init; }

    /// <summary>The mass taken, in grams.</summary>
    public required double SampleGrams { get; init; }

    /// <summary>The mass it is taken from, in grams; null for a great one.</summary>
    public double? LotGrams { get; init; }
}

using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>What an edition of a standard permits for one nominal aperture; null where it says nothing.</summary>
public sealed record ToleranceRow
{
    /// <summary>The nominal aperture w.</summary>
    public required Aperture Nominal { get; init; }

    /// <summary>Y, how far the mean aperture may be from nominal, in µm.</summary>
    public decimal? MeanMicrometres { get; init; }

    /// <summary>X, how far above nominal a single aperture may be, in µm.</summary>
    public decimal? SingleMicrometres { get; init; }

    /// <summary>How far below nominal a single aperture may be, in µm; wire cloth has no such limit, perforated plate has.</summary>
    public decimal? SingleBelowMicrometres { get; init; }

    /// <summary>Z: only the few apertures that <see cref="ToleranceTable.IntermediatePercent"/> allows may be more than this above nominal, in µm.</summary>
    public decimal? IntermediateMicrometres { get; init; }

    /// <summary>The greatest standard deviation of the apertures, in µm.</summary>
    public decimal? DeviationMicrometres { get; init; }

    /// <summary>The least mean diameter of the wires, in µm; given together with the greatest.</summary>
    public decimal? WireLeastMicrometres { get; init; }

    /// <summary>The greatest mean diameter of the wires, in µm; given together with the least.</summary>
    public decimal? WireMostMicrometres { get; init; }
}

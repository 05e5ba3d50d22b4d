using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>The apertures measured on a sieve, as a certificate or our own microscope gives them.</summary>
public sealed record ApertureInspection
{
    /// <summary>The nominal aperture of the sieve.</summary>
    public required Aperture Nominal { get; init; }

    /// <summary>The mean aperture, in µm.</summary>
    public required double MeanMicrometres { get; init; }

    /// <summary>The mean aperture in the direction of the warp, in µm; null if the directions were not told apart.</summary>
    public double? WarpMicrometres { get; init; }

    /// <summary>The mean aperture in the direction of the weft, in µm; null if the directions were not told apart.</summary>
    public double? WeftMicrometres { get; init; }

    /// <summary>The mean diameter of the wires, in µm; null if it was not measured.</summary>
    public decimal? WireMicrometres { get; init; }

    /// <summary>The largest aperture found, in µm.</summary>
    public required double LargestMicrometres { get; init; }

    /// <summary>The smallest aperture found, in µm; null if it was not looked for.</summary>
    public double? SmallestMicrometres { get; init; }

    /// <summary>The standard deviation of the apertures, in µm; null if it was not determined.</summary>
    public double? DeviationMicrometres { get; init; }

    /// <summary>How many apertures were measured.</summary>
    public required int Count { get; init; }

    /// <summary>How many of them are more than Z above nominal; null if they were not counted.</summary>
    public int? CountBeyondIntermediate { get; init; }

    /// <summary>How many apertures the sieve has; null for many.</summary>
    public int? AperturesOfTheSieve { get; init; }

    /// <summary>The inspection from single measured apertures, in µm.</summary>
    /// <param name="nominal">The nominal aperture of the sieve.</param>
    /// <param name="measuredMicrometres">The apertures in µm, two or more, above zero and at most 1 m.</param>
    /// <param name="table">The edition that says what Z is.</param>
    /// <param name="aperturesOfTheSieve">How many apertures the sieve has; null for many.</param>
    /// <exception cref="ArgumentException">Fewer than two apertures, or one out of range.</exception>
    public static ApertureInspection Of(Aperture nominal, IReadOnlyList<double> measuredMicrometres, ToleranceTable table, int? aperturesOfTheSieve = null)
    {
        ArgumentNullException.ThrowIfNull(measuredMicrometres);
        ArgumentNullException.ThrowIfNull(table);
        if (measuredMicrometres.Count < 2 || measuredMicrometres.Any(aperture => aperture is not (> 0 and <= 1_000_000)))
        {
            throw new ArgumentException("Two apertures or more are measured, each above 0 µm and at most 1 m.", nameof(measuredMicrometres));
        }

        var summary = Statistics.Summaries.SampleSummary.Of(measuredMicrometres);
        var beyond = table.Find(nominal)?.IntermediateMicrometres is { } z ? (double)(nominal.Micrometres + z) : (double?)null;
        return new ApertureInspection
        {
            Nominal = nominal,
            MeanMicrometres = summary.Mean,
            LargestMicrometres = summary.Greatest,
            SmallestMicrometres = summary.Smallest,
            DeviationMicrometres = summary.StandardDeviation,
            Count = measuredMicrometres.Count,
            CountBeyondIntermediate = beyond is { } limit ? measuredMicrometres.Count(aperture => aperture > limit) : null,
            AperturesOfTheSieve = aperturesOfTheSieve,
        };
    }
}

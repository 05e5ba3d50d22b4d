using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Variance;

/// <summary>
/// Is a measurement good enough to tell parts apart: repeatability and reproducibility of a crossed study by analysis of variance
/// (docs/science/gauge-study.md). Source: AIAG, Measurement Systems Analysis, 4th edition, chapter III, as its worked example is publicly quoted.
/// </summary>
public sealed record GaugeStudy
{
    private const double Spread = 6;

    private GaugeStudy()
    {
    }

    /// <summary>The analysis of variance; parts are its rows, people its columns.</summary>
    public CrossedAnova Analysis { get; private init; } = null!;

    /// <summary>Whether the interaction of parts and people was taken into the repeatability.</summary>
    public bool IsPooled { get; private init; }

    /// <summary>What counts as repeatability: within the cells, with the interaction if pooled.</summary>
    public VarianceLine Error { get; private init; } = null!;

    /// <summary>The equipment's repeatability EV as a standard deviation, in the values' unit.</summary>
    public double Repeatability { get; private init; }

    /// <summary>The people's reproducibility AV as a standard deviation, in the values' unit.</summary>
    public double Reproducibility { get; private init; }

    /// <summary>The interaction as a standard deviation, in the values' unit; zero if pooled.</summary>
    public double InteractionDeviation { get; private init; }

    /// <summary>The parts' own standard deviation PV, in the values' unit.</summary>
    public double PartDeviation { get; private init; }

    /// <summary>Repeatability, reproducibility and interaction together, GRR, in the values' unit.</summary>
    public double Gauge => Math.Sqrt(Square(Repeatability) + Square(Reproducibility) + Square(InteractionDeviation));

    /// <summary>All together, TV, in the values' unit.</summary>
    public double Total => Math.Sqrt(Square(Gauge) + Square(PartDeviation));

    /// <summary>GRR as a share of the total standard deviation (%); null if nothing scatters.</summary>
    public double? GaugePercent => Total > 0 ? 100 * Gauge / Total : null;

    /// <summary>GRR as a share of the total variance (%); null if nothing scatters.</summary>
    public double? ContributionPercent => Total > 0 ? 100 * Square(Gauge / Total) : null;

    /// <summary>How many kinds of parts the measurement tells apart, 1.41 PV / GRR, without unit and not cut to a whole number; null if GRR is zero.</summary>
    public double? DistinctCategories => Gauge > 0 ? 1.41 * PartDeviation / Gauge : null;

    /// <summary>Six GRR as a share of a tolerance (%).</summary>
    /// <param name="tolerance">The width between the limits, in the values' unit; above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is not above zero.</exception>
    public double TolerancePercent(double tolerance) => 100 * Spread * Gauge / Given.Positive(tolerance, nameof(tolerance));

    /// <summary>The study of two parts, two people and two trials or more.</summary>
    /// <param name="cells">For each part, for each person, the trials.</param>
    /// <param name="poolAbove">The interaction joins the repeatability if its probability is above this; 0.25 is common practice, 1 never pools.</param>
    /// <exception cref="ArgumentException">Too few parts, people or trials, cells of different size, or a value out of range.</exception>
    public static GaugeStudy Of(IReadOnlyList<IReadOnlyList<IReadOnlyList<double>>> cells, double poolAbove = 0.25)
    {
        var analysis = CrossedAnova.Of(cells);
        if (analysis.Replicates < 2)
        {
            throw new ArgumentException("Each person measures each part at least twice.", nameof(cells));
        }

        var pools = poolAbove < 1 && (analysis.InteractionProbability ?? 0) > poolAbove;
        return Of(analysis, pools, pools ? analysis.Within.And(analysis.Interaction) : analysis.Within, cells.Count, cells[0].Count);
    }

    private static GaugeStudy Of(CrossedAnova analysis, bool pools, VarianceLine error, int parts, int people)
    {
        var compared = pools ? error : analysis.Interaction;
        return new GaugeStudy
        {
            Analysis = analysis,
            IsPooled = pools,
            Error = error,
            Repeatability = Math.Sqrt(error.MeanSquare),
            Reproducibility = Deviation(analysis.Columns, compared, parts * analysis.Replicates),
            InteractionDeviation = pools ? 0 : Deviation(analysis.Interaction, analysis.Within, analysis.Replicates),
            PartDeviation = Deviation(analysis.Rows, compared, people * analysis.Replicates),
        };
    }

    private static double Deviation(VarianceLine line, VarianceLine below, int count) => Math.Sqrt(Math.Max(0, line.MeanSquare - below.MeanSquare) / count);

    private static double Square(double value) => value * value;
}

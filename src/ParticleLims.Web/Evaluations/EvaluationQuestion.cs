using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Web.Evaluations;

/// <summary>What a program asks to be evaluated: units in the names, numbers as JSON numbers or decimal strings, masses exact to the microgram.</summary>
public sealed record EvaluationQuestion
{
    /// <summary>How the powder met the sieves.</summary>
    public required Procedure Procedure { get; init; }

    /// <summary>The cuts in any order.</summary>
    public required IReadOnlyList<CutQuestion> Cuts { get; init; }

    /// <summary>Nested stack: what was put on, in grams.</summary>
    public decimal? PortionGrams { get; init; }

    /// <summary>Nested stack: the receiver.</summary>
    public ReceiverQuestion? Receiver { get; init; }

    /// <summary>Air jet with a weighed collector, in grams.</summary>
    public decimal? CollectedGrams { get; init; }

    /// <summary>The method's choices.</summary>
    public SettingsQuestion? Settings { get; init; }

    /// <summary>Without it there are no uncertainties and only simple acceptance.</summary>
    public UncertaintyQuestion? Uncertainty { get; init; }

    /// <summary>The limits to judge.</summary>
    public IReadOnlyList<LimitQuestion>? Limits { get; init; }
}

/// <summary>What was weighed, or is given, at one aperture.</summary>
public sealed record CutQuestion
{
    /// <summary>Nominal aperture in micrometres.</summary>
    public required decimal ApertureMicrometres { get; init; }

    /// <summary>The empty sieve in grams.</summary>
    public decimal? EmptyGrams { get; init; }

    /// <summary>The sieve with powder before sieving, in grams.</summary>
    public decimal? LoadedGrams { get; init; }

    /// <summary>The sieve with its residue, in grams.</summary>
    public decimal? AfterGrams { get; init; }

    /// <summary>Given distribution: percent passing.</summary>
    public decimal? PassingPercent { get; init; }

    /// <summary>Given distribution: its standard uncertainty in percent.</summary>
    public decimal? PassingStandardUncertaintyPercent { get; init; }

    /// <summary>Effective aperture in micrometres.</summary>
    public decimal? EffectiveApertureMicrometres { get; init; }

    /// <summary>Standard uncertainty of the aperture in micrometres.</summary>
    public decimal? ApertureStandardUncertaintyMicrometres { get; init; }

    /// <summary>What the last sieving interval still changed, in grams.</summary>
    public decimal? LastIntervalChangeGrams { get; init; }
}

/// <summary>The receiver of a nested stack, in grams.</summary>
public sealed record ReceiverQuestion
{
    /// <summary>Empty.</summary>
    public required decimal EmptyGrams { get; init; }

    /// <summary>With what passed the finest sieve.</summary>
    public required decimal AfterGrams { get; init; }
}

/// <summary>The choices of a method.</summary>
public sealed record SettingsQuestion
{
    /// <summary>Nested stack: what 100 % is.</summary>
    public PercentBasis? Basis { get; init; }

    /// <summary>How the curve runs between its points.</summary>
    public Interpolation? Interpolation { get; init; }

    /// <summary>Which aperture counts.</summary>
    public ApertureChoice? Apertures { get; init; }

    /// <summary>The percentiles wanted, in percent.</summary>
    public IReadOnlyList<decimal>? Percentiles { get; init; }

    /// <summary>For the specific surface.</summary>
    public decimal? TrueDensityGramsPerCubicCentimetre { get; init; }

    /// <summary>For the specific surface.</summary>
    public decimal? ShapeFactor { get; init; }

    /// <summary>Carried residue: what becomes of powder lost between two sieves.</summary>
    public TransferLossRule? TransferLoss { get; init; }

    /// <summary>What happens to a tie when a value is printed.</summary>
    public Rounding? Rounding { get; init; }
}

/// <summary>The inputs of an uncertainty.</summary>
public sealed record UncertaintyQuestion
{
    /// <summary>Standard deviation of repeated weighings in grams.</summary>
    public required decimal BalanceRepeatabilityGrams { get; init; }

    /// <summary>The display's step in grams.</summary>
    public required decimal ReadabilityGrams { get; init; }

    /// <summary>Half width of the linearity in grams.</summary>
    public decimal LinearityGrams { get; init; }

    /// <summary>Half width, in grams, of the drift of an empty sieve between its two weighings.</summary>
    public decimal EmptyDriftGrams { get; init; }

    /// <summary>Standard uncertainty in percent, near 50 % passing, from taking the test portion.</summary>
    public decimal PortionStandardUncertaintyPercent { get; init; }

    /// <summary>How it is propagated.</summary>
    public UncertaintyMethod Method { get; init; }

    /// <summary>Monte Carlo: how many trials.</summary>
    public int Trials { get; init; } = 1_000_000;

    /// <summary>Monte Carlo: end when the results are stable to so many significant digits, 1 or 2.</summary>
    public int? StableDigits { get; init; }

    /// <summary>Monte Carlo: the seed.</summary>
    public long Seed { get; init; } = 1;

    /// <summary>The coverage probability.</summary>
    public decimal Coverage { get; init; } = 0.95m;
}

/// <summary>A limit to judge.</summary>
public sealed record LimitQuestion
{
    /// <summary>What it speaks of.</summary>
    public required Characteristic Characteristic { get; init; }

    /// <summary>For a percentile: percent passing.</summary>
    public decimal? Percent { get; init; }

    /// <summary>For passing and retained: the aperture in micrometres.</summary>
    public decimal? ApertureMicrometres { get; init; }

    /// <summary>The lower bound.</summary>
    public decimal? Lower { get; init; }

    /// <summary>The upper bound.</summary>
    public decimal? Upper { get; init; }

    /// <summary>Decimals shown.</summary>
    public int Digits { get; init; } = 1;

    /// <summary>The decision rule.</summary>
    public DecisionRule Rule { get; init; }

    /// <summary>The guard band as a multiple of the expanded uncertainty.</summary>
    public decimal GuardFactor { get; init; } = 1m;
}

namespace ParticleLims.Laboratory.Certificates;

/// <summary>What was measured and against what it was held, in base units and unrounded.</summary>
/// <param name="Procedure">How the powder met the sieves: <c>separatePortions</c>, <c>carriedResidue</c> or <c>nestedStack</c>.</param>
/// <param name="Reading">How the curve runs between its points, for example <c>logLinear</c>.</param>
/// <param name="Runs">The runs whose mean is the result.</param>
/// <param name="Limits">The printed limits, in the order of the results.</param>
public sealed record Measurements(string Procedure, string Reading, IReadOnlyList<MeasuredRun> Runs, IReadOnlyList<MeasuredLimit> Limits);

/// <summary>One run: its cuts, the finest first.</summary>
/// <param name="Run">Its number.</param>
/// <param name="Cuts">What was measured at each aperture.</param>
/// <param name="Weighings">The balance's readings that stand, in the order in which they were taken; null where the laboratory does not hand them out.</param>
public sealed record MeasuredRun(string Run, IReadOnlyList<MeasuredCutNumbers> Cuts, IReadOnlyList<MeasuredWeighing>? Weighings = null);

/// <summary>One reading of a balance.</summary>
/// <param name="Kind">What was on the pan, for example <c>loaded</c> or <c>after</c>.</param>
/// <param name="ApertureNanometres">The sieve's nominal aperture in nm; null for container, receiver and collector.</param>
/// <param name="Round">0 after the method's sieving time; 1 and on after each further interval of the end point.</param>
/// <param name="Micrograms">The mass in µg.</param>
/// <param name="At">When it was taken, UTC.</param>
public sealed record MeasuredWeighing(string Kind, long? ApertureNanometres, int Round, long Micrograms, DateTimeOffset At);

/// <summary>One aperture of a run.</summary>
/// <param name="ApertureNanometres">The nominal aperture in nm.</param>
/// <param name="UsedApertureNanometres">The aperture that the evaluation used, in nm: the nominal or the effective one.</param>
/// <param name="WholeMicrograms">The mass that is 100 % here, in µg: the test portion, or the sum of the fractions of a nested stack.</param>
/// <param name="ResidueMicrograms">What lay on this sieve, in µg.</param>
/// <param name="PassingPercent">The percentage passing.</param>
public sealed record MeasuredCutNumbers(long ApertureNanometres, long UsedApertureNanometres, long? WholeMicrograms, long? ResidueMicrograms, double PassingPercent);

/// <summary>One limit and the unrounded value held against it.</summary>
/// <param name="Characteristic">For example <c>passing</c> or <c>percentile</c>.</param>
/// <param name="ApertureNanometres">The aperture that it speaks of, in nm; null for another characteristic.</param>
/// <param name="Percent">The percentage passing of a percentile; null for another characteristic.</param>
/// <param name="Unit">The unit of bounds and value; <c>1</c> for none.</param>
/// <param name="Lower">The lower bound; null for none.</param>
/// <param name="Upper">The upper bound; null for none.</param>
/// <param name="Rule">The decision rule: <c>simple</c>, <c>guarded</c> or <c>fourState</c>.</param>
/// <param name="GuardFactor">The guard band as a multiple of the expanded uncertainty.</param>
/// <param name="Value">The unrounded value; null where there is none.</param>
/// <param name="Relation">Whether it is the value (<c>equal</c>) or a bound of it (<c>below</c>, <c>above</c>).</param>
/// <param name="ExpandedUncertainty">The expanded uncertainty (95 %); null where none was evaluated.</param>
/// <param name="Verdict">For example <c>conforms</c>.</param>
public sealed record MeasuredLimit(
    string Characteristic, long? ApertureNanometres, decimal? Percent, string Unit, decimal? Lower, decimal? Upper, string Rule, decimal GuardFactor, double? Value, string Relation, double? ExpandedUncertainty, string Verdict);

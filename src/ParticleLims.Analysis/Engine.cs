using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>
/// From weighings to percentages, sizes and verdicts. Pure: no clock, no culture, no randomness; the same request gives the same bits
/// on every machine, because beyond exact fractions only IEEE 754 additions, multiplications, divisions and square roots are used.
/// </summary>
public static class Engine
{
    /// <summary>
    /// The engine's version. It changes whenever any request could give other bits than before, or more of them
    /// (docs/science/engine-versions.md).
    /// </summary>
    public const string Version = "1.1.0";

    /// <summary>The first version: percentages, percentiles, span and the Rosin-Rammler line.</summary>
    private const string First = "1.0.0";

    /// <summary>The versions whose answers can be given again to the last bit, the oldest first.</summary>
    public static IReadOnlyList<string> Versions { get; } = [First, Version];

    /// <summary>Evaluates a request, or refuses it in words.</summary>
    /// <param name="request">What was measured, and the method's choices.</param>
    /// <exception cref="ArgumentNullException">The request is null.</exception>
    /// <exception cref="ArgumentException">One of its lists is null.</exception>
    public static EvaluationOutcome Evaluate(EvaluationRequest request) => Evaluate(request, Version);

    /// <summary>Evaluates a request as a version of the engine did, for what was stored then.</summary>
    /// <param name="request">What was measured, and the method's choices.</param>
    /// <param name="version">One of <see cref="Versions"/>.</param>
    /// <exception cref="ArgumentNullException">The request is null.</exception>
    /// <exception cref="ArgumentException">One of its lists is null, or the version is none that can be given again.</exception>
    public static EvaluationOutcome Evaluate(EvaluationRequest request, string version)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!Versions.Contains(version))
        {
            throw new ArgumentException($"The engine cannot answer as version {version}.", nameof(version));
        }

        if (request.Cuts is null || request.Limits is null || request.Settings?.Percentiles is null)
        {
            throw new ArgumentException("A request has cuts, limits and settings with percentiles, if only empty ones.", nameof(request));
        }

        var log = new FindingLog();
        RequestCheck.Run(request, log);
        if (log.HasRefusal)
        {
            return new Refused(log.Refusals);
        }

        var table = WeighedTables.Of(request, log);
        return log.HasRefusal ? new Refused(log.Refusals) : new Evaluated(Describe(request, table, version, log));
    }

    /// <summary>Judges the mean of replicates: several results of one sample against its limits.</summary>
    /// <param name="replicates">One result or more, in any order.</param>
    /// <param name="limits">The limits; each is judged by simple acceptance.</param>
    /// <param name="rounding">What happens to a tie when a value is printed.</param>
    /// <exception cref="ArgumentException">There is no result.</exception>
    public static ReplicateVerdicts JudgeReplicates(
        IReadOnlyList<EvaluationResult> replicates, IReadOnlyList<LimitInput> limits, Rounding rounding = Rounding.HalfEven)
    {
        ArgumentNullException.ThrowIfNull(replicates);
        ArgumentNullException.ThrowIfNull(limits);
        if (replicates.Count == 0)
        {
            throw new ArgumentException("Replicates are one result or more.", nameof(replicates));
        }

        var log = new FindingLog();
        LimitCheck.Run(limits, log);
        return new ReplicateVerdicts
        {
            Engine = Version,
            Verdicts = log.HasRefusal ? [] : limits.Select((limit, index) => JudgeMean(index, limit, replicates, rounding, log)).ToList(),
            Findings = log.All,
        };
    }

    private static EvaluationResult Describe(EvaluationRequest request, WeighedTable table, string version, FindingLog log)
    {
        var curve = CurveOf(request, table, log);
        var (classes, points, isFirst) = (curve.Classes(), FitPoint.Of(table.Cuts), version == First);
        var models = isFirst ? ModelFitting.LineAlone(points, log) : ModelFitting.All(points, log);
        RunChecks.Run(request, table, log);
        return new EvaluationResult
        {
            Engine = version,
            Cuts = table.Cuts,
            Fractions = classes,
            RecoveryPercent = table.RecoveryPercent,
            TransferLosses = table.TransferLosses,
            Percentiles = request.Settings.Percentiles.Select(curve.Percentile).ToList(),
            Span = curve.Span(),
            Curve = curve,
            Summary = isFirst ? null : Summary(request.Settings, curve, classes, log),
            Models = models,
            Verdicts = request.Limits.Select((limit, index) => SimpleAcceptance.Judge(
                index, limit, CharacteristicReading.Read(curve, models, limit), request.Settings.Rounding)).ToList(),
            Findings = log.All,
        };
    }

    private static DistributionSummary Summary(EvaluationSettings settings, DistributionCurve curve, IReadOnlyList<SizeClass> classes, FindingLog log)
    {
        double? density = settings.TrueDensityGramsPerCubicCentimetre is { } grams ? Ratio.FromDecimal(grams).ToDouble() : null;
        var summary = DistributionSummary.Of(curve, classes, density, Ratio.FromDecimal(settings.ShapeFactor ?? 1m).ToDouble());
        if (density is not null)
        {
            SurfaceCheck.Report(summary.Moments, log);
        }

        return summary;
    }

    private static DistributionCurve CurveOf(EvaluationRequest request, WeighedTable table, FindingLog log)
    {
        var measured = table.Cuts.Select(cut => cut.PassingPercent).ToArray();
        var repaired = MonotoneRepair.Apply(measured);
        if (!measured.SequenceEqual(repaired))
        {
            MonotoneCheck.Report(table.Cuts, request.WeighingStandardUncertainty.GetValueOrDefault(), log);
        }

        CurveEnds.Report(request.Settings.Interpolation, table.Cuts, repaired, log);
        var points = table.Cuts.Select((cut, i) => new CurvePoint
        {
            Aperture = cut.UsedAperture,
            MeasuredPercent = measured[i],
            PassingPercent = repaired[i],
        }).ToList();
        return new DistributionCurve(points, request.Settings.Interpolation);
    }

    private static LimitVerdict JudgeMean(
        int index, LimitInput limit, IReadOnlyList<EvaluationResult> replicates, Rounding rounding, FindingLog log)
    {
        var values = replicates.Select(result => CharacteristicReading.Read(result.Curve, result.Models, limit)).ToList();
        var verdict = SimpleAcceptance.Judge(index, limit, ReplicateMean.Of(values), rounding);
        if (limit.RepeatabilityLimit is not { } apart || !ReplicateMean.AreApart(values, apart))
        {
            return verdict;
        }

        log.Find(
            FindingCodes.ReplicatesApart,
            $"The replicates lie further apart than the repeatability limit of {Ratio.FromDecimal(apart).ToString(limit.Digits, rounding)}: their mean is no result.",
            $"limits[{index}]");
        return verdict with { Verdict = Verdict.Undecided, VerdictAsRounded = Verdict.Undecided };
    }
}

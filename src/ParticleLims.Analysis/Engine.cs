using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>
/// From weighings to percentages, sizes, uncertainties and verdicts. Pure: no clock, no culture, no randomness but from a given seed; the same request gives the same bits
/// on every machine, because beyond exact fractions only IEEE 754 additions, multiplications, divisions and square roots are used.
/// </summary>
public static class Engine
{
    /// <summary>
    /// The engine's version. It changes whenever any request could give other bits than before, or more of them
    /// (docs/science/engine-versions.md).
    /// </summary>
    public const string Version = "1.2.0";

    /// <summary>The first version: percentages, percentiles, span and the Rosin-Rammler line.</summary>
    private const string First = "1.0.0";

    /// <summary>The second version: all models by both methods, densities, moments, summary; no uncertainties.</summary>
    private const string Second = "1.1.0";

    /// <summary>The versions whose answers can be given again to the last bit, the oldest first.</summary>
    public static IReadOnlyList<string> Versions { get; } = [First, Second, Version];

    /// <summary>Evaluates a request, or refuses it in words.</summary>
    /// <param name="request">What was measured, and the method's choices.</param>
    /// <exception cref="ArgumentNullException">The request is null.</exception>
    /// <exception cref="ArgumentException">One of its lists is null.</exception>
    public static EvaluationOutcome Evaluate(EvaluationRequest request) => Evaluate(request, Version);

    /// <summary>Evaluates a request as a version of the engine did, for what was stored then.</summary>
    /// <param name="request">What was measured, and the method's choices.</param>
    /// <param name="version">One of <see cref="Versions"/>.</param>
    /// <param name="forEach">Who does the blocks of Monte Carlo trials; null for one after the other. The answer is the same.</param>
    /// <exception cref="ArgumentNullException">The request is null.</exception>
    /// <exception cref="ArgumentException">One of its lists is null, or the version is none that can be given again, or had no uncertainties and is asked for them.</exception>
    public static EvaluationOutcome Evaluate(EvaluationRequest request, string version, ForEachBlock? forEach = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!CanAnswerAs(request, version))
        {
            throw new ArgumentException($"The engine cannot answer this request as version {version}.", nameof(version));
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

        var cuts = OrderedCut.Of(request);
        var table = WeighedTables.Of(request, cuts, log);
        return log.HasRefusal ? new Refused(log.Refusals) : new Evaluated(Describe(request, cuts, table, version, forEach, log));
    }

    /// <summary>Whether a request can be evaluated as a version of the engine did: one of <see cref="Versions"/>, and not asked for uncertainties that it did not have.</summary>
    /// <param name="request">What was measured.</param>
    /// <param name="version">The version.</param>
    public static bool CanAnswerAs(EvaluationRequest request, string version)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Versions.Contains(version) && (version == Version || request.Uncertainty is null);
    }

    /// <summary>Judges the mean of replicates: several results of one sample against its limits.</summary>
    /// <param name="replicates">One result or more, in any order.</param>
    /// <param name="limits">The limits.</param>
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
            Verdicts = log.HasRefusal ? [] : limits.Select((limit, index) => ReplicateJudgement.Of(index, limit, replicates, rounding, log)).ToList(),
            Findings = log.All,
        };
    }

    private static EvaluationResult Describe(
        EvaluationRequest request, IReadOnlyList<OrderedCut> cuts, WeighedTable table, string version, ForEachBlock? forEach, FindingLog log)
    {
        var uncertainty = request.Uncertainty is { } input ? new UncertaintyEvaluation(new MeasurementModel(request, input, cuts, table)) : null;
        var measured = MeasuredCuts(table, uncertainty);
        var curve = CurveOf(request, measured, uncertainty?.Model, log);
        var (classes, points, isFirst) = (curve.Classes(), FitPoint.Of(measured), version == First);
        var models = isFirst ? ModelFitting.LineAlone(points, log) : ModelFitting.All(points, log);
        RunChecks.Run(request, table, log);
        var summary = isFirst ? null : Summary(request.Settings, curve, classes, log);
        var result = new EvaluationResult
        {
            Engine = version,
            Cuts = measured,
            Fractions = classes,
            RecoveryPercent = table.RecoveryPercent,
            TransferLosses = table.TransferLosses,
            Percentiles = request.Settings.Percentiles.Select(curve.Percentile).ToList(),
            Span = curve.Span(),
            Curve = curve,
            Summary = summary,
            Models = models,
            Verdicts = [],
            Findings = [],
        };
        result = uncertainty is null ? result : ResultUncertainty.Add(result, uncertainty, request, forEach, log);
        var verdicts = request.Limits.Select((limit, index) => Judge(index, limit, result, request.Settings.Rounding, log)).ToList();
        return result with { Verdicts = verdicts, Findings = log.All };
    }

    private static IReadOnlyList<MeasuredCut> MeasuredCuts(WeighedTable table, UncertaintyEvaluation? uncertainty) =>
        uncertainty is { Model.HasWeights: true } ? [.. table.Cuts.Select((cut, i) => cut with { PassingStandardUncertaintyPercent = uncertainty.Model.StandardUncertainty(i) })] : table.Cuts;

    private static LimitVerdict Judge(int index, LimitInput limit, EvaluationResult result, Rounding rounding, FindingLog log)
    {
        var value = CharacteristicReading.Read(result.Curve, result.Models, result.Summary, limit);
        var uncertainty = value is null ? null : ResultUncertainty.OfLimit(result, limit, value);
        var verdict = LimitJudgement.Judge(index, limit, value, ResultUncertainty.ToJudge(result, limit, value, uncertainty), rounding);
        NarrowLimits.Report(index, limit, verdict.ExpandedUncertainty, log);
        return verdict with { Uncertainty = verdict.Relation == Relation.Equal ? uncertainty : null };
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

    private static DistributionCurve CurveOf(EvaluationRequest request, IReadOnlyList<MeasuredCut> cuts, MeasurementModel? model, FindingLog log)
    {
        var measured = cuts.Select(cut => cut.PassingPercent).ToArray();
        var repaired = MonotoneRepair.Apply(measured, model?.Weights);
        if (!measured.SequenceEqual(repaired))
        {
            MonotoneCheck.Report(cuts, request.GainUncertainty, model, log);
        }

        CurveEnds.Report(request.Settings.Interpolation, cuts, repaired, log);
        var points = cuts.Select((cut, i) => new CurvePoint
        {
            Aperture = cut.UsedAperture,
            MeasuredPercent = measured[i],
            PassingPercent = repaired[i],
        }).ToList();
        return new DistributionCurve(points, request.Settings.Interpolation);
    }
}

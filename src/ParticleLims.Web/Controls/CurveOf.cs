using System.Globalization;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Pictures.Plots;
using Curve = ParticleLims.Pictures.Plots.DistributionCurve;
using EvaluatedCurve = ParticleLims.Analysis.Distributions.DistributionCurve;
using Point = ParticleLims.Pictures.Plots.CurvePoint;

namespace ParticleLims.Web.Controls;

/// <summary>What a curve's picture shows, from an evaluation and the limits it is held against.</summary>
public static class CurveOf
{
    /// <summary>One run, with other runs faint behind it.</summary>
    public static Curve Run(string title, EvaluationResult result, IEnumerable<Limit> limits, IEnumerable<EvaluatedRun>? others = null) => new()
    {
        Title = title,
        Points = Points(result),
        Others = [.. (others ?? []).Select(other => new OtherCurve(other.Run.Number, Points(other.Evaluation.Result)))],
        Gates = [.. limits.Select(Gate).OfType<CurveGate>()],
        CoverageFactor = result.Uncertainty?.CoverageFactor ?? 2,
        Percentiles = [.. result.Percentiles.Select((percentile, i) => (percentile, Interval(result, i))).Where(one => one.percentile.Relation == Relation.Equal).Select(one => Mark(one.percentile.Percent, one.percentile.Micrometres, one.Item2))],
        Model = result.Models.FirstOrDefault(model => model is { Model: Model.RosinRammler, Method: FitMethod.StraightLine }) is { } fitted ? Line(fitted) : null,
        Between = Between(result.Curve),
    };

    /// <summary>A run without a point yet: the specification's window alone.</summary>
    public static Curve Begun(string title, IEnumerable<Limit> limits) => new()
    {
        Title = title,
        Points = [],
        Gates = [.. limits.Select(Gate).OfType<CurveGate>()],
    };

    /// <summary>A sample: the mean of its replicates, each replicate faint behind it.</summary>
    public static Curve Sample(string title, SampleResult sample)
    {
        ArgumentNullException.ThrowIfNull(sample);
        var results = sample.Replicates.Select(replicate => replicate.Evaluation.Result).ToList();
        if (results.Count == 1)
        {
            return Run(title, results[0], sample.Specification.Limits.OrderBy(limit => limit.Position));
        }

        return new Curve
        {
            Title = title,
            Points = [.. from cut in results.SelectMany(result => result.Cuts) group cut.PassingPercent.ToDouble() by cut.Aperture into at orderby at.Key select new Point((double)at.Key.Micrometres, at.Average())],
            Others = [.. sample.Replicates.Select(replicate => new OtherCurve(replicate.Run.Number, Points(replicate.Evaluation.Result)))],
            Gates = [.. sample.Specification.Limits.OrderBy(limit => limit.Position).Select(Gate).OfType<CurveGate>()],
            Percentiles =
            [
                .. from percentile in results.SelectMany(result => result.Percentiles)
                   group percentile by percentile.Percent into at
                   where at.All(percentile => percentile.Relation == Relation.Equal)
                   orderby at.Key
                   select Mark(at.Key, at.Average(percentile => percentile.Micrometres)),
            ],
        };
    }

    /// <summary>The measured points, with their uncertainty where one is known.</summary>
    public static Point[] Points(EvaluationResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return [.. result.Cuts.Select(cut => new Point((double)cut.UsedAperture.Micrometres, cut.PassingPercent.ToDouble(), cut.PassingStandardUncertaintyPercent, ApertureUncertainty(result, cut.Aperture)))];
    }

    /// <summary>A fitted model as it is drawn.</summary>
    public static FittedLine Line(FittedModel fitted)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        return new FittedLine(fitted.Model, fitted.SizeMicrometres, fitted.Slope);
    }

    // The budgets of the sizes name the uncertainty of each aperture that matters to one of them.
    private static double? ApertureUncertainty(EvaluationResult result, Aperture aperture) =>
        result.PercentileUncertainties.OfType<CharacteristicUncertainty>().SelectMany(one => one.Budget).FirstOrDefault(entry => entry.Input == InputKind.SieveAperture && entry.Aperture == aperture)?.StandardUncertainty;

    private static SizeInterval? Interval(EvaluationResult result, int percentile) =>
        result.Uncertainty is { } statement && result.PercentileUncertainties.ElementAtOrDefault(percentile) is { Low: > 0 } known
            ? new SizeInterval(known.Low, known.High, Say.Percent(100 * statement.Coverage, 0))
            : null;

    // Sizes are read from the engine's curve; where that is not the straight pieces between the measured points, it is drawn itself.
    private static Point[] Between(EvaluatedCurve curve)
    {
        const int Pieces = 16;
        if (curve.Interpolation == Interpolation.LogLinear && curve.Points.All(point => point.PassingPercent == point.MeasuredPercent))
        {
            return [];
        }

        var sizes = curve.Points.Select(point => (double)point.Aperture.Micrometres).ToList();
        var inner = sizes.Zip(sizes.Skip(1)).SelectMany(pair => Enumerable.Range(1, Pieces - 1).Select(i => pair.First * Math.Pow(pair.Second / pair.First, (double)i / Pieces)));
        return [.. sizes.Concat(inner).Order().Select(size => (size, curve.PassingPercentAt(size))).Where(one => one.Item2 is not null).Select(one => new Point(one.size, one.Item2!.Value))];
    }

    private static PercentileMark Mark(decimal percent, double micrometres, SizeInterval? interval = null) => new(string.Create(CultureInfo.InvariantCulture, $"D{percent:0.###}"), (double)percent, micrometres, interval);

    private static CurveGate? Gate(Limit limit)
    {
        var (lower, upper) = ((double?)limit.Lower, (double?)limit.Upper);
        return limit.Characteristic switch
        {
            LimitCharacteristic.Passing => CurveGate.AtAperture(limit.Words, (double)limit.Aperture!.Value.Micrometres, lower, upper),
            LimitCharacteristic.Retained => CurveGate.AtAperture(limit.Words, (double)limit.Aperture!.Value.Micrometres, 100 - upper, 100 - lower),
            LimitCharacteristic.Percentile => CurveGate.AtPassing(limit.Words, (double)limit.Percent!.Value, lower, upper),
            _ => null,
        };
    }
}

using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty.Curves;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>A run as a measurement: its inputs with their uncertainties, the percentages and sizes that follow from them, and what is read off these (docs/science/uncertainty-propagation.md).</summary>
internal sealed class MeasurementModel
{
    /// <summary>Small enough that a curve is straight over it, large enough that nothing is lost in the difference.</summary>
    private const double PercentStep = 1e-4;
    private const double SizeStep = 1e-6;

    private readonly Aperture[] _apertures;
    private readonly Interpolation _interpolation;
    private readonly double _surfaceFactor;

    public MeasurementModel(EvaluationRequest request, UncertaintyInput uncertainty, IReadOnlyList<OrderedCut> cuts, WeighedTable table)
    {
        (Request, Uncertainty, Cuts) = (request, uncertainty, cuts);
        Inputs = new InputList(request, uncertainty, cuts);
        Sensitivities = PassingSensitivities.Of(request, table, cuts, Inputs);
        Percent = table.Cuts.Select(cut => cut.PassingPercent.ToDouble()).ToArray();
        Sizes = table.Cuts.Select(cut => cut.UsedAperture.ToMicrometres()).ToArray();
        Logs = Array.ConvertAll(Sizes, NaturalLogarithm.Of);
        _apertures = table.Cuts.Select(cut => cut.UsedAperture).ToArray();
        PortionCovariance = PortionTaking.Covariance((double)uncertainty.PortionStandardUncertaintyPercent, request.Procedure, Percent);
        Covariance = CovarianceOfPassing();
        HasWeights = Enumerable.Range(0, Percent.Length).All(cut => StandardUncertainty(cut) > 0);
        Weights = RepairWeights();
        _interpolation = request.Settings.Interpolation;
        _surfaceFactor = request.Settings.TrueDensityGramsPerCubicCentimetre is { } density ? 6 * (double)(request.Settings.ShapeFactor ?? 1m) / (double)density : double.NaN;
    }

    public EvaluationRequest Request { get; }

    public UncertaintyInput Uncertainty { get; }

    public IReadOnlyList<OrderedCut> Cuts { get; }

    public InputList Inputs { get; }

    public PassingSensitivities Sensitivities { get; }

    /// <summary>The percentages passing as measured.</summary>
    public double[] Percent { get; }

    /// <summary>The sizes used, in µm.</summary>
    public double[] Sizes { get; }

    /// <summary>Their natural logarithms.</summary>
    public double[] Logs { get; }

    /// <summary>The covariances that taking the test portion makes; null where nothing is stated.</summary>
    public double[]? PortionCovariance { get; }

    /// <summary>The full covariances of the percentages passing, in percent squared, row after row.</summary>
    public double[] Covariance { get; }

    /// <summary>The weights with which the curve is made monotone, 1/u²; all one where a cut has no uncertainty.</summary>
    public double[] Weights { get; }

    /// <summary>The standard uncertainty of the percentage passing a cut, in percent.</summary>
    public double StandardUncertainty(int cut) => Math.Sqrt(Covariance[(cut * Percent.Length) + cut]);

    /// <summary>Whether every cut has an uncertainty, so that weights follow from them.</summary>
    public bool HasWeights { get; }

    /// <summary>The place of the cut whose used aperture a percentage is asked at; -1 between the cuts.</summary>
    public int CutOf(Subject subject) =>
        subject is { Characteristic: Characteristic.Passing or Characteristic.Retained, Aperture: { } aperture } ? Array.IndexOf(_apertures, aperture) : -1;

    /// <summary>The value of a characteristic for percentages and sizes; the percentages are made monotone first.</summary>
    public double Value(Subject subject, int cut, ReadOnlySpan<double> percent, ReadOnlySpan<double> sizes, ReadOnlySpan<double> logs)
    {
        Span<double> repaired = stackalloc double[percent.Length];
        percent.CopyTo(repaired);
        NumericRepair.Apply(repaired, Weights);
        return new NumericState(percent, repaired, sizes, logs, _interpolation, _surfaceFactor).Value(subject, cut);
    }

    /// <summary>How a characteristic changes with each percentage and each size, by central differences (GUM, JCGM 100:2008, 5.1.3, note 2); not a number where it has no value.</summary>
    public (double[] ByPercent, double[] BySize) Gradient(Subject subject)
    {
        var cut = CutOf(subject);
        var (byPercent, bySize) = (new double[Percent.Length], new double[Percent.Length]);
        if (cut >= 0)
        {
            byPercent[cut] = subject.Characteristic == Characteristic.Passing ? 1 : -1;
            return (byPercent, bySize);
        }

        Span<double> moved = stackalloc double[Percent.Length];
        Span<double> movedLogs = stackalloc double[Percent.Length];
        for (var i = 0; i < Percent.Length; i++)
        {
            Percent.CopyTo(moved);
            moved[i] = Percent[i] + PercentStep;
            var above = Value(subject, cut, moved, Sizes, Logs);
            moved[i] = Percent[i] - PercentStep;
            byPercent[i] = (above - Value(subject, cut, moved, Sizes, Logs)) / (2 * PercentStep);
        }

        for (var i = 0; i < Sizes.Length; i++)
        {
            if (Inputs.Places[i].Aperture < 0)
            {
                continue;
            }

            Sizes.CopyTo(moved);
            Logs.CopyTo(movedLogs);
            (moved[i], movedLogs[i]) = (Sizes[i] * (1 + SizeStep), Logs[i] + SizeStep);
            var above = Value(subject, cut, Percent, moved, movedLogs);
            (moved[i], movedLogs[i]) = (Sizes[i] * (1 - SizeStep), Logs[i] - SizeStep);
            bySize[i] = (above - Value(subject, cut, Percent, moved, movedLogs)) / (2 * SizeStep * Sizes[i]);
        }

        return (byPercent, bySize);
    }

    private double[] CovarianceOfPassing()
    {
        var count = Percent.Length;
        var covariance = PortionCovariance?.ToArray() ?? new double[count * count];
        for (var i = 0; i < count; i++)
        {
            for (var j = 0; j < count; j++)
            {
                var a = Sensitivities.Row(i);
                var b = Sensitivities.Row(j);
                for (var k = 0; k < Inputs.Inputs.Count; k++)
                {
                    var u = Inputs.Inputs[k].StandardUncertainty;
                    covariance[(i * count) + j] += a[k] * b[k] * u * u;
                }
            }
        }

        return covariance;
    }

    private double[] RepairWeights()
    {
        var weights = new double[Percent.Length];
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] = HasWeights ? 1 / Covariance[(i * weights.Length) + i] : 1;
        }

        return weights;
    }
}

using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Uncertainty.Curves;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>The uncertainty of a characteristic by the law of propagation, with its budget (docs/science/uncertainty-propagation.md).</summary>
internal static class AnalyticUncertainty
{
    /// <summary>Null where the characteristic has no value near the measured one.</summary>
    public static CharacteristicUncertainty? Of(MeasurementModel model, Subject subject, double value, double coverageFactor)
    {
        var (byPercent, bySize) = model.Gradient(subject);
        var (sensitivities, portion) = (SensitivitiesOf(model, byPercent, bySize), PortionVariance(model, byPercent));
        double variance = portion, shared = 0;
        for (var k = 0; k < sensitivities.Length; k++)
        {
            var input = model.Inputs.Inputs[k];
            var part = sensitivities[k] * input.StandardUncertainty;
            variance += part * part;
            shared += input.Kind == InputKind.SieveAperture ? part * part : 0;
        }

        if (!double.IsFinite(variance))
        {
            return null;
        }

        var u = Math.Sqrt(variance);
        return new CharacteristicUncertainty
        {
            StandardUncertainty = u,
            Expanded = coverageFactor * u,
            Low = value - (coverageFactor * u),
            High = value + (coverageFactor * u),
            Budget = Budget(model, sensitivities, portion, variance),
            SharedStandardUncertainty = Math.Sqrt(shared),
            BelowFinestPercent = subject is { Characteristic: Characteristic.Percentile, Percent: { } share } ? Above(model.Percent[0] - (double)share, model.StandardUncertainty(0)) : 0,
            AboveCoarsestPercent = subject is { Characteristic: Characteristic.Percentile, Percent: { } finer } ? Above((double)finer - model.Percent[^1], model.StandardUncertainty(model.Percent.Length - 1)) : 0,
        };
    }

    /// <summary>The probability in percent that a quantity is above zero: more than the share passes the finest aperture, or less than it the coarsest.</summary>
    private static double Above(double value, double standardUncertainty) =>
        100 * (standardUncertainty > 0 ? NormalDistribution.Below(value / standardUncertainty) : value > 0 ? 1 : 0);

    private static double[] SensitivitiesOf(MeasurementModel model, double[] byPercent, double[] bySize)
    {
        var sensitivities = new double[model.Inputs.Inputs.Count];
        for (var i = 0; i < byPercent.Length; i++)
        {
            var row = model.Sensitivities.Row(i);
            for (var k = 0; k < sensitivities.Length; k++)
            {
                sensitivities[k] += byPercent[i] * row[k];
            }

            if (model.Inputs.Places[i].Aperture is >= 0 and var aperture)
            {
                sensitivities[aperture] += bySize[i];
            }
        }

        return sensitivities;
    }

    private static double PortionVariance(MeasurementModel model, double[] byPercent) =>
        model.PortionCovariance is { } covariance ? Math.Max(0, LawOfPropagation.Product(byPercent, covariance, byPercent)) : 0;

    private static List<BudgetEntry> Budget(MeasurementModel model, double[] sensitivities, double portion, double variance)
    {
        var budget = new List<BudgetEntry>();
        for (var k = 0; k < sensitivities.Length; k++)
        {
            var (input, sensitivity) = (model.Inputs.Inputs[k], sensitivities[k]);
            if (sensitivity != 0)
            {
                var part = sensitivity * input.StandardUncertainty;
                budget.Add(Entry(input.Kind, part * part, variance) with { Aperture = input.Aperture, StandardUncertainty = input.StandardUncertainty, Sensitivity = sensitivity });
            }
        }

        if (portion > 0)
        {
            budget.Add(Entry(InputKind.TakingTestPortion, portion, variance) with { StandardUncertainty = (double)model.Uncertainty.PortionStandardUncertaintyPercent });
        }

        return budget;
    }

    private static BudgetEntry Entry(InputKind kind, double part, double variance) =>
        new() { Input = kind, StandardUncertainty = 0, Contribution = Math.Sqrt(part), SharePercent = 100 * part / variance };
}

using System.Globalization;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sampling;
using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Outliers;
using ParticleLims.Analysis.Statistics.Probabilities;
using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Analysis.Statistics.Regression;
using ParticleLims.Analysis.Statistics.Summaries;
using ParticleLims.Analysis.Statistics.Variance;

namespace ParticleLims.Analysis.Tests.Science;

/// <summary>The worked numbers of the pages on statistics, sampling and balances.</summary>
internal static class DocumentedStatistics
{
    private static readonly double[] Seven = [50.1, 49.8, 50.4, 50.0, 49.9, 50.3, 50.2];

    public static IReadOnlyDictionary<string, Func<IEnumerable<string>>> Pages { get; } = new Dictionary<string, Func<IEnumerable<string>>>(StringComparer.Ordinal)
    {
        ["double-double.md"] = () => [Double()],
        ["probability-distributions.md"] = () => [Probabilities()],
        ["sample-summary.md"] = () => [Summary()],
        ["pooled-deviation.md"] = () => [Pooled()],
        ["paired-comparison.md"] = () => [Paired()],
        ["limits-of-agreement.md"] = () => [Agreement()],
        ["linear-regression.md"] = () => [Line()],
        ["theil-sen-slope.md"] = () => [Drift()],
        ["one-way-anova.md"] = () => [OneWay()],
        ["nested-anova.md"] = () => [Nested()],
        ["crossed-anova.md"] = () => [Crossed()],
        ["gauge-study.md"] = () => [Gauge()],
        ["grubbs-test.md"] = () => [Grubbs(), GrubbsTwo()],
        ["dixon-test.md"] = () => [Dixon()],
        ["individuals-chart.md"] = () => [Individuals()],
        ["ewma-chart.md"] = () => [Ewma()],
        ["cusum-chart.md"] = () => [Cusum()],
        ["run-rules.md"] = () => [Runs()],
        ["capability.md"] = () => [Capability()],
        ["fundamental-sampling-error.md"] = () => [Fundamental()],
        ["size-class-sampling.md"] = () => [SizeClass()],
        ["minimum-weight.md"] = () => [Minimum()],
        ["weight-tolerances.md"] = () => [Weight()],
        ["sieve-tolerances.md"] = () => [DocumentedSieves.Tolerance()],
        ["sieve-inspection.md"] = () => DocumentedSieves.Inspection(),
        ["effective-aperture.md"] = () => [DocumentedSieves.Effective()],
        ["sieve-load.md"] = () => [DocumentedSieves.Load()],
        ["tare-history.md"] = () => [DocumentedSieves.Tare()],
    };

    private static string Double() =>
        $"1000000000000.4 - 1000000000000.3 = {(DoubleDouble.From(1000000000000.4m) - DoubleDouble.From(1000000000000.3m)).ToDouble().ToString("R", CultureInfo.InvariantCulture)}; as doubles {Text(1000000000000.4 - 1000000000000.3, 10)}";

    private static string Probabilities() =>
        $"two-sided 95 %, 9 degrees of freedom: t = {Text(StudentDistribution.TwoSided(0.95, 9), 4)}; χ²(0.975, 9) = {Text(ChiSquareDistribution.Quantile(0.975, 9), 4)}; F above 4 with 3 and 10: {Text(FisherDistribution.Above(4, 3, 10), 5)}";

    private static string Summary()
    {
        var summary = SampleSummary.Of(Seven);
        var interval = summary.MeanInterval(0.95)!;
        return $"50.1, 49.8, 50.4, 50.0, 49.9, 50.3, 50.2: mean {Text(summary.Mean, 4)}, s = {Text(summary.StandardDeviation, 5)}, r₁ = {Text(summary.LagOneCorrelation, 4)}, mean between {Text(interval.Low, 4)} and {Text(interval.High, 4)} (95 %)";
    }

    private static string Pooled() => $"duplicates 1 and 2, 10 and 12, 100 and 103: s = {Text(PooledDeviation.Of([[1, 2], [10, 12], [100, 103]]).StandardDeviation, 5)}, 3 degrees of freedom";

    private static string Paired()
    {
        var comparison = PairedComparison.Of([10, 12, 9, 11], [11, 14, 9.5, 12.5]);
        return $"10, 12, 9, 11 against 11, 14, 9.5, 12.5: mean difference {Text(comparison.MeanDifference, 2)}, t = {Text(comparison.T, 4)}, p = {Text(comparison.Probability, 4)}";
    }

    private static string Agreement()
    {
        var limits = LimitsOfAgreement.Of([10, 12, 9, 11], [11, 14, 9.5, 12.5]);
        return $"10, 12, 9, 11 against 11, 14, 9.5, 12.5: bias {Text(limits.Bias, 2)}, limits {Text(limits.LowerLimit, 4)} and {Text(limits.UpperLimit, 4)}, the upper one between {Text(limits.UpperInterval.Low, 3)} and {Text(limits.UpperInterval.High, 3)}";
    }

    private static string Line()
    {
        var line = LinearRegression.Line([1, 2, 3, 4.0], [1, 3, 2, 4.0]);
        return $"(1, 1), (2, 3), (3, 2), (4, 4): y = {Text(line.Coefficients[0].Value, 3)} + {Text(line.Coefficients[1].Value, 3)} x, standard error of the slope {Text(line.Coefficients[1].StandardError, 5)}, R² = {Text(line.RSquared, 3)}";
    }

    private static string Drift()
    {
        var line = TheilSenSlope.Of([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78], 0.93);
        return $"Sen's example: slope {Text(line.Slope, 2)}, between {Text(line.SlopeInterval.Low, 2)} and {Text(line.SlopeInterval.High, 2)} (93 %)";
    }

    private static string OneWay()
    {
        var anova = OneWayAnova.Of((double[][])[[10.1, 10.3], [10.6, 10.5], [9.9, 10.2]]);
        var precision = anova.Precision!;
        return $"days (10.1, 10.3), (10.6, 10.5), (9.9, 10.2): s_r = {Text(precision.Repeatability, 5)}, s_days = {Text(precision.BetweenGroups, 5)}, s_I = {Text(precision.Intermediate, 5)}, F = {Text(anova.F, 4)}, p = {Text(anova.Probability, 4)}";
    }

    private static string Nested()
    {
        var anova = NestedAnova.Of((double[][][])[[[10, 11], [13, 14]], [[20, 22], [18, 19]]]);
        return $"lots with samples ((10, 11), (13, 14)) and ((20, 22), (18, 19)): variance within {Text(anova.WithinVariance, 3)}, of samples {Text(anova.SubgroupVariance, 3)}, of lots {Text(anova.GroupVariance, 3)}";
    }

    private static string Crossed()
    {
        var anova = CrossedAnova.Of((double[][][])[[[1], [2]], [[3], [5]], [[4], [7]]]);
        return $"rows (1, 2), (3, 5), (4, 7): F of rows {Text(anova.RowF, 3)}, p = {Text(anova.RowProbability, 4)}; F of columns {Text(anova.ColumnF, 3)}, p = {Text(anova.ColumnProbability, 4)}";
    }

    private static string Gauge()
    {
        var study = GaugeStudy.Of((double[][][])[[[1.0, 1.1], [1.2, 1.1]], [[2.0, 2.1], [2.2, 2.3]], [[3.1, 3.0], [3.2, 3.1]]]);
        return $"three parts, two people, two trials ((1.0, 1.1), (1.2, 1.1)), ((2.0, 2.1), (2.2, 2.3)), ((3.1, 3.0), (3.2, 3.1)): EV = {Text(study.Repeatability, 5)}, AV = {Text(study.Reproducibility, 5)}, PV = {Text(study.PartDeviation, 5)}, GRR {Text(study.GaugePercent, 2)} % of TV";
    }

    private static string Grubbs()
    {
        var found = GrubbsTest.One([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57], 0.05, OutlierSide.Highest)!;
        return $"199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57: G = {Text(found.Statistic, 4)}, critical {Text(found.Critical, 4)} (highest, 5 %)";
    }

    private static string GrubbsTwo()
    {
        var found = GrubbsTest.Two([10.1, 10.2, 10.3, 10.2, 10.1, 10.25, 13.0, 13.1], 0.05, OutlierSide.Highest)!;
        return $"10.1, 10.2, 10.3, 10.2, 10.1, 10.25, 13.0, 13.1: quotient {Text(found.Statistic, 5)}, critical {Text(found.Critical, 4)} (two highest, 5 %)";
    }

    private static string Dixon()
    {
        var found = DixonTest.Of([40.12, 40.02, 40.16, 40.18, 40.18, 40.20], 0.10)!;
        return $"40.12, 40.02, 40.16, 40.18, 40.18, 40.20: Q = {Text(found.Statistic, 4)}, critical {Text(found.Critical, 3)} (either end, 10 %)";
    }

    private static string Individuals()
    {
        var chart = IndividualsChart.From([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
        return $"49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1: limits {Text(chart.Values.Lower, 4)} and {Text(chart.Values.Upper, 4)}, of the ranges {Text(chart.Ranges.Upper, 4)}";
    }

    private static string Ewma()
    {
        var chart = EwmaChart.Of([52, 47, 53], 50, 2.0539, 0.3, 3, settled: true);
        return $"52, 47, 53 about 50 with λ = 0.3: {string.Join(", ", chart.Averages.Select(average => Text(average, 3)))}; limits with σ = 2.0539: {Text(chart.Limits[0].Lower, 4)} and {Text(chart.Limits[0].Upper, 4)}";
    }

    private static string Cusum()
    {
        var chart = CusumChart.Of([11, 12, 12.5, 11.5], 10, 1, 0.5, 4);
        return $"11, 12, 12.5, 11.5 about 10, σ = 1, k = 0.5, h = 4: C⁺ = {string.Join(", ", chart.High.Select(sum => Text(sum, 1)))}; signal at value {chart.Signals[0].Index + 1}, new mean about {Text(chart.Signals[0].EstimatedMean, 3)}";
    }

    private static string Runs()
    {
        var hit = RunRules.Broken([0.1, 2.1, -0.4, 2.2], 0, 1, RunRule.Nelson).Single();
        return $"0.1, 2.1, -0.4, 2.2 in σ from the centre: {hit.Words.TrimEnd('.')} (points {string.Join(" and ", hit.Points.Select(point => point + 1))})";
    }

    private static string Capability()
    {
        var capability = ProcessCapability.Of(16, 2, 50, 49, new CapabilityLimits { Lower = 8, Upper = 20 });
        return $"limits 8 and 20, mean 16, s = 2, n = 50: Cp = {Text(capability.Potential!.Value, 4)} ({Text(capability.Potential.Interval.Low, 4)} to {Text(capability.Potential.Interval.High, 4)}), Cpk = {Text(capability.Actual!.Value, 4)} ({Text(capability.Actual.Interval.Low, 4)} to {Text(capability.Actual.Interval.High, 4)})";
    }

    private static string Fundamental()
    {
        var ore = new GyConstant { Shape = 0.5, SizeRange = 0.25, LiberationCentimetres = 0.015, Mineralogical = GyConstant.MineralogicalFactor(0.05 / 0.866, 7.5, 2.65) };
        return $"5 % element, 86.6 % in the mineral, 7.5 and 2.65 g/cm³, L = 0.015 cm, d = 0.1 cm: m = {Text(ore.Mineralogical, 3)} g/cm³, C = {Text(ore.At(0.1), 5)} g/cm³; 2 % at 95 % ask for {Text(FundamentalError.SmallestSampleGrams(ore.At(0.1), 0.1, 0.02), 2)} g";
    }

    private static string SizeClass()
    {
        SampledClass[] classes = [new() { Share = 0.02, SizeMicrometres = 125 }, new() { Share = 0.98, SizeMicrometres = 63 }];
        return $"2 % of 125 µm and 98 % of 63 µm, ρ = 2.7 g/cm³, f = 0.5, 10 g: the 2 % scatter by {Text(100 * SizeClassError.RelativeDeviation(classes, 0, 2.7, 10), 3)} % of themselves";
    }

    private static string Minimum() =>
        $"s = 0.1 mg, d = 0.1 mg: {MinimumWeight.Of(Mass.FromMicrograms(100), Mass.FromMicrograms(100)).Grams.ToString("F3", CultureInfo.InvariantCulture)} g; s = 0.02 mg, d = 0.1 mg: {MinimumWeight.Of(Mass.FromMicrograms(20), Mass.FromMicrograms(100)).Grams.ToString("F3", CultureInfo.InvariantCulture)} g";

    private static string Weight() => $"100 g, class E2: ± {Text(WeightTolerances.Of(Mass.FromGrams(100m), WeightClass.E2)!.Value.Micrograms / 1000.0, 2)} mg";

    private static string Text(double? value, int digits) => value.ShouldNotBeNull().ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}

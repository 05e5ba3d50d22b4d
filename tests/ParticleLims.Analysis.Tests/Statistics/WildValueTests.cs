using System.Collections;
using System.Reflection;
using CsCheck;
using ParticleLims.Analysis.Statistics.Outliers;
using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Analysis.Statistics.Regression;
using ParticleLims.Analysis.Statistics.Summaries;
using ParticleLims.Analysis.Statistics.Variance;

namespace ParticleLims.Analysis.Tests.Statistics;

/// <summary>Whatever finite values of the stated range are given, no statistic answers NaN: it gives a number, nothing, or refuses with a reason.</summary>
public sealed class WildValueTests
{
    private static readonly double[] Corners = [0, 1e100, -1e100, 1e-100, -1e-100, 1e-300, double.Epsilon, 1e50, 0.1, 1e15 + 0.3];

    private static readonly Gen<double> Wild = Gen.OneOf(
        Gen.Double[-1e3, 1e3],
        Gen.Int[-3, 3].Select(value => (double)value),
        Gen.Int[0, 9].Select(corner => Corners[corner]));

    private static readonly Gen<double[]> Ten = Wild.Array[10];

    private static readonly Dictionary<string, Func<double[], double[], object?>> Statistics = new(StringComparer.Ordinal)
    {
        ["summary"] = (x, _) => (SampleSummary.Of(x), SampleSummary.Of(x).MeanInterval(0.95)),
        ["pooled"] = (x, y) => (PooledDeviation.Of([x, y]), PooledDeviation.Of([x, y]).DeviationInterval(0.9)),
        ["pairs"] = (x, y) => PairedComparison.Of(x, y),
        ["agreement"] = (x, y) => LimitsOfAgreement.Of(x, y),
        ["line"] = (x, y) => LinearRegression.Line(x, y),
        ["curve"] = (x, y) => LinearRegression.Polynomial(x, y, 4),
        ["drift"] = (x, y) => TheilSenSlope.Of(x, y, 0.95),
        ["one way"] = (x, y) => OneWayAnova.Of((double[][])[x, y, x[..1]]),
        ["nested"] = (x, y) => NestedAnova.Of((double[][][])[[x[..4], x[4..]], [y[..3], y[3..]]]),
        ["crossed"] = (x, y) => CrossedAnova.Of((double[][][])[[x[..5], x[5..]], [y[..5], y[5..]]]),
        ["gauge"] = (x, y) => GaugeStudy.Of((double[][][])[[x[..5], x[5..]], [y[..5], y[5..]]]),
        ["one outlier"] = (x, _) => GrubbsTest.One(x, 0.05, OutlierSide.Either),
        ["two outliers"] = (x, _) => GrubbsTest.Two(x, 0.05, OutlierSide.Either),
        ["gap"] = (x, _) => DixonTest.Of(x, 0.05),
        ["individuals"] = (x, _) => IndividualsChart.From(x),
        ["moving average"] = (x, y) => EwmaChart.Of(x, y[0], 1),
        ["cumulative sum"] = (x, y) => CusumChart.Of(x, y[0], 1),
        ["runs"] = (x, y) => RunRules.Broken(x, y[0], 1e-50, RunRule.Nelson),
        ["capability"] = (x, _) => ProcessCapability.Of(x, new CapabilityLimits { Lower = -1, Upper = 1e90 }),
    };

    public static TheoryData<string> Names => [.. Statistics.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void No_finite_values_make_a_statistic_answer_what_is_no_number(string name) =>
        Ten.Select(Ten).Sample(pair => NotNumbers(Answer(name, pair.Item1, pair.Item2), name).ShouldBeEmpty(), iter: 1_000);

    [Theory]
    [MemberData(nameof(Names))]
    public void Ordinary_values_are_answered_and_not_refused(string name) =>
        Answer(name, [1.2, 1.9, 3.1, 4.4, 4.9, 6.2, 7.0, 8.1, 8.8, 10.3], [2.1, 2.0, 2.4, 2.2, 2.6, 2.3, 2.9, 2.5, 2.7, 3.0]).ShouldNotBeNull().ShouldNotBeOfType<string>();

    private static object? Answer(string name, double[] x, double[] y)
    {
        try
        {
            return Statistics[name](x, y);
        }
        catch (ArgumentException refusal)
        {
            return refusal.Message;
        }
    }

    /// <summary>The places within an answer that hold NaN.</summary>
    private static IEnumerable<string> NotNumbers(object? answer, string path) => answer switch
    {
        null or string or int or bool or Enum => [],
        double number => double.IsNaN(number) ? [path] : [],
        System.Runtime.CompilerServices.ITuple tuple => Enumerable.Range(0, tuple.Length).SelectMany(i => NotNumbers(tuple[i], $"{path}[{i}]")),
        IEnumerable many => many.Cast<object?>().SelectMany((one, i) => NotNumbers(one, $"{path}[{i}]")),
        _ => answer.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.GetIndexParameters().Length == 0)
            .SelectMany(property => NotNumbers(property.GetValue(answer), $"{path}.{property.Name}")),
    };
}

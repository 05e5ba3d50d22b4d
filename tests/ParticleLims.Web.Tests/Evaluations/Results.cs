using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Web.Evaluations;

namespace ParticleLims.Web.Tests.Evaluations;

/// <summary>Results of the engine for what shows them.</summary>
internal static class Results
{
    /// <summary>Six points with their uncertainties, and a true density.</summary>
    public static EvaluationResult Usual { get; } = Of(Engine.Version);

    /// <summary>The same as the engine's first version gave it.</summary>
    public static EvaluationResult Old { get; } = Of("1.0.0");

    /// <summary>With the uncertainty of each percentile and its budget.</summary>
    public static EvaluationResult WithBudgets { get; } = ((Evaluated)Engine.Evaluate(Request(Points) with { Uncertainty = new UncertaintyInput() })).Result;

    /// <summary>One point: nothing can be fitted.</summary>
    public static EvaluationResult Single { get; } = ((Evaluated)Engine.Evaluate(Request([(63, 40, 0.2m)]))).Result;

    /// <summary>A specification's limits: one of a size of which a budget stands anyway, one of a passing and one of the span.</summary>
    public static IReadOnlyList<Limit> Limits =>
    [
        new() { Position = 0, Characteristic = LimitCharacteristic.Percentile, Percent = 50, Lower = 30, Upper = 45, Digits = 1 },
        new() { Position = 1, Characteristic = LimitCharacteristic.Passing, Aperture = Aperture.FromMicrometres(63), Lower = 75, Digits = 1 },
        new() { Position = 2, Characteristic = LimitCharacteristic.Span, Upper = 2, Digits = 2 },
    ];

    private static IReadOnlyList<(int Aperture, decimal Passing, decimal Uncertainty)> Points =>
        [(20, 18.42m, 0.21m), (32, 38.05m, 0.24m), (45, 58.31m, 0.25m), (63, 79.9m, 0.22m), (90, 95.71m, 0.15m), (125, 99.62m, 0.1m)];

    public static LabelledResult Labelled(string label, EvaluationResult result) => new(label, result, Limits, "/files");

    private static EvaluationResult Of(string version) => ((Evaluated)Engine.Evaluate(
        Request(Points), version)).Result;

    private static EvaluationRequest Request(IReadOnlyList<(int Aperture, decimal Passing, decimal Uncertainty)> points) => new()
    {
        Procedure = Procedure.GivenDistribution,
        Cuts = [.. points.Select(point => new CutInput { Aperture = Aperture.FromMicrometres(point.Aperture), PassingPercent = point.Passing, PassingStandardUncertaintyPercent = point.Uncertainty })],
        Limits = [.. Limits.Select(limit => new LimitInput
        {
            Characteristic = Enum.Parse<Characteristic>(limit.Characteristic.ToString()), Aperture = limit.Aperture, Percent = limit.Percent, Lower = limit.Lower, Upper = limit.Upper, Digits = limit.Digits,
        })],
        Settings = new EvaluationSettings { TrueDensityGramsPerCubicCentimetre = 2.71m, ShapeFactor = 1.4m },
    };
}

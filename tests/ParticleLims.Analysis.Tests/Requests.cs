using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests;

/// <summary>Small requests in grams and micrometres.</summary>
internal static class Requests
{
    public static CutInput Cut(decimal micrometres, decimal empty, decimal? loaded, decimal after) => new()
    {
        Aperture = Aperture.FromMicrometres(micrometres),
        Empty = Mass.FromGrams(empty),
        Loaded = loaded is { } grams ? Mass.FromGrams(grams) : null,
        After = Mass.FromGrams(after),
    };

    public static CutInput Passing(decimal micrometres, decimal percent) =>
        new() { Aperture = Aperture.FromMicrometres(micrometres), PassingPercent = percent };

    public static EvaluationRequest Of(Procedure procedure, params CutInput[] cuts) => new() { Procedure = procedure, Cuts = cuts };

    public static EvaluationRequest Given(params (decimal Micrometres, decimal Percent)[] points) =>
        Of(Procedure.GivenDistribution, points.Select(point => Passing(point.Micrometres, point.Percent)).ToArray());

    public static EvaluationResult Result(this EvaluationRequest request) =>
        Engine.Evaluate(request).ShouldBeOfType<Evaluated>().Result;

    public static EvaluationResult Result(this EvaluationRequest request, string version) =>
        Engine.Evaluate(request, version).ShouldBeOfType<Evaluated>().Result;

    public static IReadOnlyList<Finding> Refusals(this EvaluationRequest request)
    {
        var findings = Engine.Evaluate(request).ShouldBeOfType<Refused>().Findings;
        findings.ShouldNotBeEmpty();
        findings.ShouldAllBe(finding => finding.Severity == FindingSeverity.Refusal && finding.Message.Length > 0);
        return findings;
    }

    public static Finding Refusal(this EvaluationRequest request) => request.Refusals().ShouldHaveSingleItem();

    public static Ratio Passing(this EvaluationResult result, decimal micrometres) =>
        result.Cuts.Single(cut => cut.Aperture == Aperture.FromMicrometres(micrometres)).PassingPercent;

    public static Ratio Percent(decimal percent) => Ratio.FromDecimal(percent);
}

using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.ReferenceData;

/// <summary>The published stacks of worked_sieve_examples.csv as requests to the engine.</summary>
internal static class WorkedSieveExamples
{
    /// <summary>Inferred from the published percentages, as REFERENCES.md says; the example prints no receiver.</summary>
    private static readonly Mass ScirpSample = Mass.FromGrams(2000m);

    public static TheoryData<string> Names => [.. ReferenceFile.Rows("worked_sieve_examples.csv").Select(row => row["example"]).Distinct()];

    public static IReadOnlyList<ReferenceFile.Row> Sieves(string example) => ReferenceFile.Rows("worked_sieve_examples.csv")
        .Where(row => row["example"] == example && row["aperture_mm"] != "pan").ToList();

    public static ReferenceFile.Row? Pan(string example) => ReferenceFile.Rows("worked_sieve_examples.csv")
        .SingleOrDefault(row => row["example"] == example && row["aperture_mm"] == "pan");

    public static EvaluationResult Evaluate(string example, Interpolation interpolation)
    {
        var tare = Mass.FromGrams(300m);
        var pan = Pan(example);
        var request = new EvaluationRequest
        {
            Procedure = Procedure.NestedStack,
            Cuts = Sieves(example).Select(row => new CutInput
            {
                Aperture = ApertureOf(row),
                Empty = tare,
                After = tare + Mass.FromGrams(row.Number("mass_g")),
            }).ToList(),
            Receiver = pan is null ? null : new ReceiverInput { Empty = tare, After = tare + Mass.FromGrams(pan.Number("mass_g")) },
            Portion = pan is null ? ScirpSample : null,
            Settings = new EvaluationSettings
            {
                Basis = pan is null ? PercentBasis.Portion : PercentBasis.SumOfFractions,
                Interpolation = interpolation,
                Percentiles = [10m, 30m, 50m, 60m, 90m],
            },
        };
        return Engine.Evaluate(request).ShouldBeOfType<Evaluated>().Result;
    }

    public static Aperture ApertureOf(ReferenceFile.Row row) => Aperture.FromMicrometres(row.Number("aperture_mm") * 1000m);
}

using System.Text.Json;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Takes the numbers behind the printed values from the evaluations.</summary>
internal static class MeasurementsFreezing
{
    public static Measurements Of(SampleResult result, MethodVersion method, IReadOnlyList<Run> runs, bool withWeighings) => new(
        Name(method.Procedure), Name(method.Reading),
        [.. result.Replicates.Select(replicate => new MeasuredRun(
            replicate.Run.Number, [.. replicate.Evaluation.Result.Cuts.OrderBy(cut => cut.Aperture).Select(Cut)], withWeighings ? Weighings(runs.Single(run => run.Id == replicate.Run.Id)) : null))],
        [.. result.Limits.Where(judged => judged.Limit.Printed).Select(Limit)]);

    private static MeasuredCutNumbers Cut(MeasuredCut cut) =>
        new(cut.Aperture.Nanometres, cut.UsedAperture.Nanometres, cut.Portion?.Micrograms, cut.Residue?.Micrograms, cut.PassingPercent.ToDouble());

    private static List<MeasuredWeighing> Weighings(Run run) =>
    [
        .. from weighing in run.StandingWeighings
           orderby weighing.At, weighing.Id
           let sieve = run.Sieves.Find(sieve => sieve.Position == weighing.Position)
           select new MeasuredWeighing(Name(weighing.Kind), sieve?.Aperture.Nanometres, weighing.Round, weighing.Mass.Micrograms, weighing.At),
    ];

    private static MeasuredLimit Limit(JudgedLimit judged) => new(
        Name(judged.Limit.Characteristic), judged.Limit.Aperture?.Nanometres, judged.Limit.Percent, judged.Limit.Unit, judged.Limit.Lower, judged.Limit.Upper, Name(judged.Limit.Rule), judged.Limit.GuardFactor,
        judged.Verdict.Value, Name(judged.Verdict.Relation), judged.Verdict.ExpandedUncertainty, Name(judged.Verdict.Verdict));

    /// <summary>A value of an enumeration as machines read it.</summary>
    public static string Name<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}

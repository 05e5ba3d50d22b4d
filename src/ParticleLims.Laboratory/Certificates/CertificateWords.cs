using System.Globalization;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>The sentences of a certificate.</summary>
internal static class CertificateWords
{
    /// <summary>The decision rule in words (ISO/IEC 17025 7.8.6.2; ILAC-G8:09/2019 4.2.1).</summary>
    public const string SimpleAcceptance =
        "Simple acceptance (ILAC-G8:09/2019, 4.2.1): a value within the limits or on a limit conforms. Measurement uncertainty is not taken into account; for a value at a limit the risk of a wrong statement can reach 50 %. Verdicts are taken on unrounded values.";

    private const string Simple = "simple acceptance (ILAC-G8:09/2019, 4.2.1): a value within the limits or on a limit conforms, whatever its uncertainty; the risk of a wrong statement can reach 50 % at a limit.";

    private const string Guarded = "guarded acceptance (ILAC-G8:09/2019, 4.2.2): a value inside the limits by at least the guard band conforms, any other does not.";

    private const string FourStates =
        "four states (ILAC-G8:09/2019, 4.2.3): inside the limits by at least the guard band a value conforms; nearer to a limit it conforms within the guard band; outside by less it does not conform within the guard band; further out it does not conform.";

    private const string GuardBands = "U is the expanded uncertainty for a coverage probability of 95 %; with a guard band of 1 U the risk of a wrong acceptance is at most 2.5 %. Verdicts are taken on unrounded values.";

    /// <summary>The rules of the printed limits in words; where they differ, each says for which limits.</summary>
    public static string DecisionRule(IReadOnlyList<Limit> limits)
    {
        if (limits.All(limit => limit.Rule == LimitRule.Simple))
        {
            return SimpleAcceptance;
        }

        var rules = limits.GroupBy(limit => (limit.Rule, limit.GuardFactor)).OrderBy(group => group.Key).Select(group => $"{string.Join(", ", group.Select(limit => limit.Words))}: {Sentence(group.Key.Rule, group.Key.GuardFactor)}");
        return string.Join(' ', rules) + " " + GuardBands;
    }

    private static string Sentence(LimitRule rule, decimal factor)
    {
        var band = string.Create(CultureInfo.InvariantCulture, $" Guard band {factor:0.###} U.");
        return rule switch
        {
            LimitRule.Simple => Simple,
            LimitRule.Guarded => Guarded + band,
            LimitRule.FourState => FourStates + band,
            _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a decision rule."),
        };
    }

    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Conforms => "conforms",
        Verdict.ConformsWithinGuardBand => "conforms, within the guard band",
        Verdict.DoesNotConformWithinGuardBand => "does not conform, within the guard band",
        Verdict.DoesNotConform => "does not conform",
        Verdict.Undecided => "undecided",
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "Not a verdict."),
    };

    public static string Basis(MethodVersion method, SampleResult result)
    {
        var portions = result.Replicates.SelectMany(replicate => replicate.Evaluation.Result.Cuts.Select(cut => cut.Portion)).OfType<Mass>().Where(portion => portion > Mass.Zero).ToList();
        var mean = portions.Count == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $", mean {portions.Average(portion => portion.Grams):0.000} g");
        return method.Procedure switch
        {
            SievingProcedure.SeparatePortions => $"percent of the test portion on each sieve{mean}",
            SievingProcedure.CarriedResidue => $"percent of the one test portion carried from sieve to sieve{mean}",
            SievingProcedure.NestedStack => $"percent of the sum of the fractions{Recovery(result)}",
            _ => throw new ArgumentOutOfRangeException(nameof(method), method.Procedure, "Not a procedure."),
        };
    }

    public static string Values(EvaluatedRun replicate, IReadOnlyList<JudgedLimit> limits) =>
        string.Join(", ", limits.Zip(replicate.Evaluation.Result.Verdicts, (judged, verdict) => $"{judged.Limit.Words} {new JudgedLimit(judged.Limit, verdict).Printed}{(judged.Limit.Unit == "1" ? string.Empty : " " + judged.Limit.Unit)}"));

    public static IReadOnlyList<string> Conditions(MethodVersion method, List<Run> runs, Sample sample)
    {
        var means = runs.SelectMany(run => run.Intervals).Select(interval => interval.PressureMean).OfType<Pressure>().ToList();
        var lines = new List<string>
        {
            method.Procedure == SievingProcedure.NestedStack
                ? string.Create(CultureInfo.InvariantCulture, $"Dry sieving, nested stack over a receiver, {method.Seconds} s.")
                : string.Create(CultureInfo.InvariantCulture, $"Dry air-jet sieving, {method.Seconds} s on each sieve."),
        };
        if (means.Count > 0)
        {
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"Differential pressure {means.Min(pressure => pressure.Kilopascals):0.0} to {means.Max(pressure => pressure.Kilopascals):0.0} kPa (means over the intervals)."));
        }

        lines.Add($"Sample divided by: {sample.Division.Words()}.");
        lines.Add($"Sizes read from the curve, {method.Reading.Words()}.");
        return lines;
    }

    public static string Conformity(SampleResult result, string specification, LotState state)
    {
        var outside = result.Limits.Where(judged => judged.Verdict.Verdict != Verdict.Conforms).Select(judged => judged.Limit.Words).ToList();
        var version = string.Create(CultureInfo.InvariantCulture, $"{specification} version {result.Specification.Number}");
        return outside.Count == 0
            ? $"All results listed conform to specification {version}."
            : $"The results listed conform to specification {version} except: {string.Join(", ", outside)}." + (state == LotState.ReleasedByConcession ? " The lot was released by concession." : string.Empty);
    }

    public static IReadOnlyList<string> Remarks(LotEvidence evidence, LaboratorySettings settings)
    {
        var left = evidence.AllRuns.Where(run => !run.Counts).Select(run => $"Run {run.Number} was {run.State.Words()}: {run.StateReason}").ToList();
        return
        [
            .. left,
            .. evidence.Investigations.Select(one => $"Investigation {one.Number}: {one.What}. {one.ConclusionWords}"),
            .. evidence.Dispositions.Where(one => one.Decision == LotState.ReleasedByConcession).Select(one => $"Concession: {one.Reason}"),
            .. settings.OnePersonLaboratory ? ["This laboratory works with one person: the same person may have performed, reviewed and released."] : Array.Empty<string>(),
        ];
    }

    private static string Recovery(SampleResult result)
    {
        var recoveries = result.Replicates.Select(replicate => replicate.Evaluation.Result.RecoveryPercent).OfType<Ratio>().ToList();
        return recoveries.Count == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $", recovery {recoveries.Average(recovery => recovery.ToDouble()):0.00} % of the test portion");
    }
}

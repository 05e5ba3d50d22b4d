using System.Globalization;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>What one determination alone says of a limit.</summary>
/// <param name="RunNumber">The run.</param>
/// <param name="Printed">Its value as printed, with its relation.</param>
/// <param name="IsOut">Whether it is known to be out.</param>
public sealed record Determination(string RunNumber, string Printed, bool IsOut);

/// <summary>A limit and what the mean of the replicates says of it, or one of them alone.</summary>
public sealed record JudgedLimit(Limit Limit, LimitVerdict Verdict)
{
    /// <summary>The values behind the mean; empty where one determination alone is judged.</summary>
    public IReadOnlyList<Determination> Determinations { get; init; } = [];

    /// <summary>Whether the determinations differ by more than was allowed beforehand: their mean is no result.</summary>
    public bool IsApart { get; init; }

    /// <summary>The determinations that are known to be out where the specification asks that each conforms; empty else.</summary>
    public IReadOnlyList<Determination> OutByItself { get; init; } = [];

    /// <summary>What is to be said of the determinations, in sentences.</summary>
    public IReadOnlyList<string> Findings { get; init; } = [];

    /// <summary>The value as printed, with its relation: "43.2", "&lt; 20".</summary>
    public string Printed => PrintedOf(Verdict);

    /// <summary>Whether it is known to be out.</summary>
    public bool IsOut => IsKnownOut(Verdict);

    /// <summary>The expanded uncertainty with two significant digits and the unit: "± 0.52 µm"; null where none was evaluated.</summary>
    public string? Uncertainty => Verdict.ExpandedUncertainty is { } expanded ? UncertaintyWords.PlusMinus(expanded, Limit.Unit) : null;

    /// <summary>Beyond which alert limit the value lies although it conforms: "above the alert limit of 46.0 µm"; null where it lies beyond none. The unrounded value counts; one on the alert limit is within.</summary>
    public string? Alert
    {
        get
        {
            if (Verdict.Verdict is not (Analysis.Conformity.Verdict.Conforms or Analysis.Conformity.Verdict.ConformsWithinGuardBand) || Verdict.Value is not { } value)
            {
                return null;
            }

            // A bound says something on its own side only: what is below 20 µm lies below an alert limit of 20 µm.
            return Limit.LowerAlert is { } lower && (Verdict.Relation == Relation.Equal ? value < (double)lower : Verdict.Relation == Relation.Below && value <= (double)lower) ? $"below the alert limit of {Limit.Measured(lower)}"
                : Limit.UpperAlert is { } upper && (Verdict.Relation == Relation.Equal ? value > (double)upper : Verdict.Relation == Relation.Above && value >= (double)upper) ? $"above the alert limit of {Limit.Measured(upper)}"
                : null;
        }
    }

    /// <summary>Judges a limit from the mean and the determinations behind it, in the way that the specification laid down beforehand.</summary>
    internal static JudgedLimit Of(Combination combination, Limit limit, ReplicateVerdicts mean, int index, IReadOnlyList<EvaluatedRun> replicates)
    {
        var verdict = mean.Verdicts[index];
        var apart = mean.Findings.Any(finding => finding.Code == FindingCodes.ReplicatesApart && finding.Member == string.Create(CultureInfo.InvariantCulture, $"limits[{index}]"));
        var determinations = replicates.Select(replicate => (replicate.Run.Number, Verdict: replicate.Evaluation.Result.Verdicts[index])).Select(one => new Determination(one.Number, PrintedOf(one.Verdict), IsKnownOut(one.Verdict))).ToList();
        var eachOut = combination == Combination.MeanAndEach && replicates.Count > 1 ? determinations.FindAll(one => one.IsOut) : [];
        var values = string.Join(", ", determinations.Select(one => $"{one.RunNumber} {one.Printed}"));
        return new JudgedLimit(limit, eachOut.Count == 0 ? verdict : verdict with { Verdict = Analysis.Conformity.Verdict.DoesNotConform, VerdictAsRounded = Analysis.Conformity.Verdict.DoesNotConform })
        {
            Determinations = determinations.Count > 1 ? determinations : [], IsApart = apart, OutByItself = eachOut,
            Findings =
            [
                .. apart ? [$"{limit.Words}: the determinations lie further apart than is allowed{Allowed(limit)} ({values}{(limit.Unit == "1" ? string.Empty : " " + limit.Unit)}); their mean is no result."] : Array.Empty<string>(),
                .. eachOut.Select(one => $"{limit.Words}: run {one.RunNumber} with {one.Printed}{(limit.Unit == "1" ? string.Empty : " " + limit.Unit)} does not conform, and the specification asks that each determination does."),
            ],
        };
    }

    private static string Allowed(Limit limit) => limit.GreatestSpread is { } spread ? $", {limit.Measured(spread)} by the specification or less by the method" : " by the method";

    private static bool IsKnownOut(LimitVerdict verdict) => verdict.Verdict is Analysis.Conformity.Verdict.DoesNotConform or Analysis.Conformity.Verdict.DoesNotConformWithinGuardBand;

    private static string PrintedOf(LimitVerdict verdict) => verdict.Rounded is null ? "no value" : verdict.Relation switch
    {
        Relation.Below => $"< {verdict.Rounded}",
        Relation.Above => $"> {verdict.Rounded}",
        _ => verdict.Rounded,
    };
}

using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Histories;

/// <summary>What a limit of a draft would have said.</summary>
/// <param name="Limit">The limit.</param>
/// <param name="Conform">Results that would have conformed.</param>
/// <param name="DoNotConform">Results that would not.</param>
/// <param name="Undecided">Results of which the measured apertures cannot tell.</param>
/// <param name="BeyondAlert">How many of those that conform lie beyond an alert limit and would have been looked into; null where the limit has none.</param>
/// <param name="OverRuns">Null where the whole history was judged; else the limit is judged on so many of the last runs, one by one.</param>
/// <param name="Capability">Pp and Ppk over the last runs; null where they say nothing.</param>
/// <param name="Expanded">The usual expanded uncertainty of the last runs, in the limit's unit; null where none was evaluated.</param>
public sealed record LimitScore(Limit Limit, int Conform, int DoNotConform, int Undecided, int? BeyondAlert, int? OverRuns, ProcessCapability? Capability, double? Expanded)
{
    /// <summary>Why the limit can hardly be kept; null where it can.</summary>
    public string? Narrow => Limit is { Lower: { } lower, Upper: { } upper } && Expanded is { } expanded && (double)(upper - lower) < 2 * expanded
        ? $"{Limit.Words}, {Limit.Bounds()}: narrower than twice the expanded uncertainty, {UncertaintyWords.PlusMinus(expanded, Limit.Unit)}."
        : null;
}

/// <summary>A past result that the draft would have failed.</summary>
/// <param name="LotId">Its lot.</param>
/// <param name="LotNumber">The lot's number.</param>
/// <param name="SampleCode">The sample.</param>
/// <param name="State">What was decided on the lot.</param>
/// <param name="At">When it was submitted.</param>
/// <param name="Missed">The limits that it would have missed.</param>
public sealed record FailedResult(Guid LotId, string LotNumber, string SampleCode, LotState State, DateTimeOffset At, IReadOnlyList<string> Missed);

/// <summary>What a draft specification would have said of everything that its product showed so far.</summary>
public sealed record DraftScore
{
    /// <summary>Results that were judged: samples all of whose runs are accepted.</summary>
    public required int Results { get; init; }
    public required int Conform { get; init; }
    public required int DoNotConform { get; init; }
    public required int Undecided { get; init; }
    public required IReadOnlyList<LimitScore> Limits { get; init; }

    /// <summary>The newest of the results that would have failed, at most <see cref="DraftScoring.MostShown"/>.</summary>
    public required IReadOnlyList<FailedResult> Failed { get; init; }
}

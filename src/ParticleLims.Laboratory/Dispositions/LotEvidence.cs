using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>Everything that a decision on a lot rests on, and what stands in its way.</summary>
public sealed record LotEvidence
{
    public required Lot Lot { get; init; }
    public required IReadOnlyList<SampleResult> Results { get; init; }
    public required IReadOnlyList<Run> AllRuns { get; init; }
    public required IReadOnlyList<Investigation> Investigations { get; init; }
    public required IReadOnlyList<Disposition> Dispositions { get; init; }
    public required ConcessionProposal? Proposal { get; init; }

    /// <summary>Somebody asks for the decided lot to be opened again; null where nobody has since its decision.</summary>
    public ReopeningProposal? Reopening { get; init; }

    /// <summary>The cases of failed equipment that touch the lot.</summary>
    public required IReadOnlyList<TouchingCase> EquipmentCases { get; init; }

    /// <summary>The samples of the results, each with what it lacks against its sampling plan and whether that was accepted.</summary>
    public required IReadOnlyList<SampledAs> Samplings { get; init; }

    /// <summary>What was signed and is not so any more, each in a sentence.</summary>
    public required IReadOnlyList<string> Changed { get; init; }

    /// <summary>The canonical content that a signature binds; the page shows it in words.</summary>
    public required string Content { get; init; }

    /// <summary>SHA-256 of <see cref="Content"/>.</summary>
    public string ContentHash => RecordChain.HashOf(Content);

    /// <summary>What stands in the way of any result, each in a sentence.</summary>
    public IEnumerable<string> ResultBlockers
    {
        get
        {
            if (Results.Count == 0)
            {
                yield return "No sample of this lot has been booked in.";
            }

            foreach (var result in Results.Where(result => !result.Accepted))
            {
                yield return result.Complete ? $"Sample {result.SampleCode}: not every run has been accepted by a second person." : $"Sample {result.SampleCode}: not every replicate is in.";
            }

            foreach (var blocker in Samplings.Select(one => one.Blocker).OfType<string>())
            {
                yield return blocker;
            }

            foreach (var open in Investigations.Where(investigation => investigation.State != InvestigationState.Closed))
            {
                yield return !open.IsFull ? $"Investigation {open.Number}: a value out of trend is not explained yet." : $"Investigation {open.Number} is open.";
            }

            foreach (var run in AllRuns.Where(run => run.InvalidationProposed is not null))
            {
                yield return $"Run {run.Number}: whether it is invalidated is not signed yet.";
            }

            foreach (var changed in Changed)
            {
                yield return changed;
            }

            foreach (var blocker in EquipmentCases.Select(one => one.Blocker).OfType<string>())
            {
                yield return blocker;
            }

            foreach (var replicate in Results.SelectMany(result => result.Replicates).Where(replicate => !replicate.Evaluation.SameBits))
            {
                yield return $"Run {replicate.Run.Number}: computing it again does not give the stored evaluation.";
            }
        }
    }

    /// <summary>What stands in the way of a release.</summary>
    public IReadOnlyList<string> ReleaseBlockers =>
    [
        .. ResultBlockers,
        .. from result in Results
           from judged in result.Limits
           where !IsMet(judged)
           select judged.Verdict.Verdict == Verdict.Undecided
               ? judged.IsApart ? judged.Findings[0] : $"{judged.Limit.Words}: the data cannot tell whether it conforms ({judged.Printed})."
               : $"{judged.Limit.Words} does not conform ({judged.Printed} {judged.Limit.Unit}).",
    ];

    /// <summary>The proposal that waits for a decision; null where there is none, or where the last one was decided on: after a re-opening a concession is proposed anew.</summary>
    public ConcessionProposal? StandingProposal => Proposal is { } proposal && !Dispositions.Any(one => one.Decision != LotState.OnHold && one.At >= proposal.At) ? proposal : null;

    /// <summary>Why there is nothing to concede: every result is accepted and keeps every limit; null otherwise.</summary>
    public string? NothingToConcede =>
        Results.Count > 0 && Results.All(result => result.Accepted && result.Limits.All(IsMet)) ? $"Lot {Lot.Number} keeps every limit: there is nothing to concede. Release it." : null;

    /// <summary>What stands in the way of a release by concession.</summary>
    public IReadOnlyList<string> ConcessionBlockers =>
        [.. ResultBlockers, .. NothingToConcede is { } words ? [words] : StandingProposal is null ? ["Nobody has proposed a concession; the laboratory manager can."] : Array.Empty<string>()];

    private static bool IsMet(JudgedLimit judged) => judged.Verdict.Verdict is Verdict.Conforms or Verdict.ConformsWithinGuardBand;

    internal static async Task<LotEvidence> OfAsync(LaboratoryContext data, Lot lot, CancellationToken cancellation)
    {
        var results = await RunReading.ResultsOfLotAsync(data, lot.Id, cancellation);
        var runs = await data.Runs.AsNoTracking().Include(run => run.Weighings).Where(run => run.LotId == lot.Id).OrderBy(run => run.Number).ToListAsync(cancellation);
        var investigations = await data.Investigations.AsNoTracking().Include(one => one.Notes).Where(one => one.LotId == lot.Id).OrderBy(one => one.OpenedAt).ToListAsync(cancellation);
        var dispositions = await data.Dispositions.AsNoTracking().Where(one => one.LotId == lot.Id).OrderBy(one => one.At).ToListAsync(cancellation);
        var reopening = await data.Set<ReopeningProposal>().AsNoTracking().Where(one => one.LotId == lot.Id).OrderByDescending(one => one.At).FirstOrDefaultAsync(cancellation);
        var proposal = await data.ConcessionProposals.AsNoTracking().Where(one => one.LotId == lot.Id).OrderByDescending(one => one.At).FirstOrDefaultAsync(cancellation);
        var samplings = await SampledAs.OfAsync(data, [.. results.Select(result => result.SampleId)], cancellation);
        var cases = await TouchingCase.OfLotAsync(data, lot.Id, cancellation);
        return new LotEvidence
        {
            Lot = lot, Results = results, AllRuns = runs, Investigations = investigations, Dispositions = dispositions, Proposal = proposal, Reopening = reopening is not null && lot.IsDecided && dispositions.TrueForAll(one => one.At <= reopening.At) ? reopening : null, EquipmentCases = cases, Samplings = samplings,
            Changed = await ChangedEvidence.OfAsync(data, runs, samplings, investigations, cancellation),
            Content = Canonical(lot, results, runs, investigations, dispositions, proposal, cases, samplings),
        };
    }

    private static string Canonical(
        Lot lot, IEnumerable<SampleResult> results, IEnumerable<Run> runs, IEnumerable<Investigation> investigations,
        IEnumerable<Disposition> dispositions, ConcessionProposal? proposal, IEnumerable<TouchingCase> cases, IEnumerable<SampledAs> samplings) => JsonSerializer.Serialize(new
    {
        lot = lot.Number,
        state = lot.State.ToString(),
        results = results.Select(result => new
        {
            sample = result.SampleCode,
            specification = result.Specification.Id,
            limits = result.Limits.Select(judged => new { judged.Limit.Words, judged.Limit.Lower, judged.Limit.Upper, judged.Printed, uncertainty = judged.Uncertainty, rule = judged.Limit.RuleInWords(), alert = judged.Alert, determinations = judged.Determinations.Select(one => new { one.RunNumber, one.Printed }), verdict = judged.Verdict.Verdict.ToString() }),
        }),
        samplings = samplings.Select(one => new { one.Sample.Code, one.Sample.Increments, micrograms = one.Sample.Mass?.Micrograms, one.Sample.Recorded, one.Sample.SamplingLacks, accepted = one.Acceptance?.Reason }),
        runs = runs.Select(run => new { run.Number, state = run.State.ToString(), run.EvaluationId }),
        investigations = investigations.Select(one => new { one.Number, one.What, state = one.State.ToString(), conclusion = one.Conclusion?.ToString() }),
        dispositions = dispositions.Select(one => new { decision = one.Decision.ToString(), one.PersonName, one.At, one.Reason }),
        equipmentCases = cases.Select(one => new { one.Number, one.EquipmentLabel, one.What, decision = one.Decision.ToString(), one.Words }),
        proposal = proposal is null ? null : new { proposal.ProposedByName, proposal.At, proposal.Reason },
    });
}

using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>
/// What a quality manager signs who decides on a lot. A held lot is worked on, and so is one that was opened again: only a release, a concession and a rejection that stand are compared. A rejection may come
/// before every run is at its end; what those runs show later was not signed.
/// </summary>
public sealed class SignedDecision : ISignedThing
{
    // How a limit is worded may change with the program; what it asks and what was found may not.
    private static readonly string[] Wording = ["Words", "rule", "uncertainty", "alert"];

    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind != nameof(Lot))
        {
            return null;
        }

        var decided = await data.Dispositions.AsNoTracking().FirstOrDefaultAsync(one => one.SignatureId == signature.Id, cancellation);
        var lot = await data.Lots.AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        if (lot is null || decided is null)
        {
            return string.Empty;
        }

        // After a decision for good only a re-opening puts a lot on hold.
        if (decided.Decision == LotState.OnHold || await data.Dispositions.AnyAsync(one => one.LotId == lot.Id && one.Decision == LotState.OnHold && one.At > decided.At, cancellation))
        {
            return null;
        }

        var evidence = await LotEvidence.OfAsync(data, lot, cancellation);
        var (signed, now) = (JsonNode.Parse(signature.Content)!, JsonNode.Parse(evidence.Content)!);
        KeepUnfinished(signed, now, evidence.AllRuns);
        now["state"] = signed["state"]?.DeepClone();
        now["equipmentCases"] = signed["equipmentCases"]?.DeepClone(); // Each case has a signature of its own.
        foreach (var growing in (string[])["runs", "dispositions", "investigations"])
        {
            Cut(now[growing]!.AsArray(), signed[growing]!.AsArray().Count);
        }

        KeepAcceptances(now["samplings"]!.AsArray(), signed["samplings"]?.AsArray());
        foreach (var (after, before) in Limits(now).Zip(Limits(signed)))
        {
            foreach (var words in Wording)
            {
                after[words] = before[words]?.DeepClone();
            }
        }

        return now.ToJsonString();
    }

    // Runs that were not at their end when it was signed, and the results of their samples, stay as they were signed.
    private static void KeepUnfinished(JsonNode signed, JsonNode now, IReadOnlyList<Run> runs)
    {
        var ends = (string[])[nameof(RunState.Accepted), nameof(RunState.Invalidated), nameof(RunState.Abandoned)];
        var unfinished = signed["runs"]!.AsArray().Where(run => !ends.Contains(run!["state"]!.GetValue<string>())).Select(run => run![nameof(Run.Number)]!.GetValue<string>()).ToHashSet(StringComparer.Ordinal);
        if (unfinished.Count == 0)
        {
            return;
        }

        Replace(signed, now, "runs", nameof(Run.Number), unfinished.Contains);
        var samples = runs.Where(run => run.RetestPlanId is null && unfinished.Contains(run.Number)).Select(run => run.SampleCode).ToHashSet(StringComparer.Ordinal);
        Replace(signed, now, "results", "sample", samples.Contains);
    }

    // Those of a list are taken as they were signed; the order stays that of their names.
    private static void Replace(JsonNode signed, JsonNode now, string list, string name, Func<string, bool> those)
    {
        string NameOf(JsonNode one) => one[name]!.GetValue<string>();
        var kept = now[list]!.AsArray().Select(one => one!).Where(one => !those(NameOf(one)));
        var before = signed[list]!.AsArray().Select(one => one!).Where(one => those(NameOf(one)));
        now[list] = new JsonArray([.. kept.Concat(before).OrderBy(NameOf, StringComparer.Ordinal).Select(one => one.DeepClone())]);
    }

    // A sampling may be accepted when a rejected lot was opened again; that has a signature of its own.
    private static void KeepAcceptances(JsonArray now, JsonArray? signed)
    {
        if (signed is null)
        {
            return;
        }

        Cut(now, signed.Count);
        foreach (var (after, before) in now.Zip(signed))
        {
            after!["accepted"] = before!["accepted"]?.DeepClone();
        }
    }

    private static IEnumerable<JsonNode> Limits(JsonNode content) => content["results"]!.AsArray().SelectMany(result => result!["limits"]!.AsArray()).Select(limit => limit!);

    // They stand in the order of time: what came later was not signed.
    private static void Cut(JsonArray list, int most)
    {
        while (list.Count > most)
        {
            list.RemoveAt(list.Count - 1);
        }
    }
}

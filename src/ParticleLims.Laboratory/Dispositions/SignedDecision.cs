using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>What a quality manager signs who decides on a lot. A held lot is worked on, so only a release, a concession and a rejection are compared.</summary>
public sealed class SignedDecision : ISignedThing
{
    // How a limit is worded may change with the program; what it asks and what was found may not.
    private static readonly string[] Wording = ["Words", "rule", "uncertainty", "alert"];

    /// <inheritdoc />
    public async Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(signature);
        if (signature.SubjectKind != nameof(Lot) || await data.Dispositions.AsNoTracking().FirstOrDefaultAsync(one => one.SignatureId == signature.Id, cancellation) is { Decision: LotState.OnHold })
        {
            return null;
        }

        var lot = await data.Lots.AsNoTracking().FirstOrDefaultAsync(one => one.Id == signature.SubjectId, cancellation);
        if (lot is null || !await data.Dispositions.AnyAsync(one => one.SignatureId == signature.Id, cancellation))
        {
            return string.Empty;
        }

        var (signed, now) = (JsonNode.Parse(signature.Content)!, JsonNode.Parse((await LotEvidence.OfAsync(data, lot, cancellation)).Content)!);
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

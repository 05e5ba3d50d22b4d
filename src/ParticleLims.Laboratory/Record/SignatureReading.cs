using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Record;

/// <summary>A signature as every view shows it.</summary>
/// <param name="Id">The signature.</param>
/// <param name="PrintedName">The name as it was at signing.</param>
/// <param name="Function">The function then.</param>
/// <param name="Meaning">What it means.</param>
/// <param name="At">When.</param>
/// <param name="Unchanged">Whether what was signed is still so; null where it cannot be compared, because work rightly went on after it.</param>
public sealed record SignatureSeen(Guid Id, string PrintedName, string Function, string Meaning, DateTimeOffset At, bool? Unchanged);

/// <summary>Reads the signatures of a thing and compares each with what it signed.</summary>
public sealed class SignatureReading(ReadPath reading, IEnumerable<ISignedThing> things)
{
    /// <summary>The signatures of a thing, the oldest first.</summary>
    public Task<List<SignatureSeen>> OfAsync(Actor actor, Guid subjectId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var seen = new List<SignatureSeen>();
            foreach (var one in await data.Signatures.Where(signature => signature.SubjectId == subjectId).OrderBy(signature => signature.At).ThenBy(signature => signature.Id).ToListAsync(token))
            {
                seen.Add(new SignatureSeen(one.Id, one.PrintedName, one.Function, one.Meaning, one.At, await SignedContent.IsUnchangedAsync(data, one, things, token)));
            }

            return seen;
        }, cancellation);
}

using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>Whatever a decision rests on and was signed, compared with what it is now: a signature over something else counts for nothing.</summary>
internal static class ChangedEvidence
{
    private static readonly ISignedThing[] Things =
        [new SignedReview(), new SignedOverride(), new SignedDocument<Method, MethodVersion>(), new SignedDocument<Specification, SpecificationVersion>(), new SignedConclusion(), new SignedSampling()];

    /// <summary>Each in a sentence.</summary>
    public static async Task<IReadOnlyList<string>> OfAsync(LaboratoryContext data, IReadOnlyList<Run> runs, IReadOnlyList<SampledAs> samplings, IReadOnlyList<Investigation> investigations, CancellationToken cancellation)
    {
        var counting = runs.Where(run => run.Counts).ToList();
        var (methodIds, specificationIds) = (counting.Select(run => run.MethodVersionId).Distinct().ToList(), counting.Select(run => run.SpecificationVersionId).Distinct().ToList());
        var methods = await data.MethodVersions.AsNoTracking().Where(one => methodIds.Contains(one.Id)).Select(one => new { one.Id, one.DocumentId }).ToListAsync(cancellation);
        var specifications = await data.SpecificationVersions.AsNoTracking().Where(one => specificationIds.Contains(one.Id)).Select(one => new { one.Id, one.DocumentId }).ToListAsync(cancellation);
        List<Guid> subjects = [.. counting.Select(run => run.Id), .. samplings.Select(one => one.Sample.Id), .. investigations.Select(one => one.Id), .. methods.Select(one => one.DocumentId), .. specifications.Select(one => one.DocumentId)];
        var signatures = await data.Signatures.AsNoTracking().Where(one => subjects.Contains(one.SubjectId)).OrderBy(one => one.At).ToListAsync(cancellation);
        var changed = new List<string>();
        foreach (var signature in signatures.Where(one => one.SubjectKind is not (nameof(Method) or nameof(Specification))
            || methods.Exists(version => SignedDocument<Method, MethodVersion>.IsOf(one, version.Id)) || specifications.Exists(version => SignedDocument<Specification, SpecificationVersion>.IsOf(one, version.Id))))
        {
            if (await SignedContent.IsUnchangedAsync(data, signature, Things, cancellation) == false)
            {
                var label = await LabelAsync(data, signature, counting, investigations, cancellation);
                changed.Add(string.Create(CultureInfo.InvariantCulture, $"{label} was {SignedContent.ChangedWords}: {signature.PrintedName} signed “{signature.Meaning}” on {signature.At.UtcDateTime:yyyy-MM-dd}, and it is not so any more."));
            }
        }

        return changed;
    }

    private static async Task<string> LabelAsync(LaboratoryContext data, Signature signature, List<Run> runs, IReadOnlyList<Investigation> investigations, CancellationToken cancellation) => signature.SubjectKind switch
    {
        nameof(Method) => $"Method {await data.Methods.Where(one => one.Id == signature.SubjectId).Select(one => one.Code).FirstOrDefaultAsync(cancellation)}",
        nameof(Specification) => $"Specification {await data.Specifications.Where(one => one.Id == signature.SubjectId).Select(one => one.Code).FirstOrDefaultAsync(cancellation)}",
        nameof(Investigation) => $"Investigation {investigations.First(one => one.Id == signature.SubjectId).Number}",
        nameof(Sample) => $"Sample {await data.Samples.Where(one => one.Id == signature.SubjectId).Select(one => one.Code).FirstOrDefaultAsync(cancellation)}",
        _ => $"Run {runs.Find(run => run.Id == signature.SubjectId)?.Number}",
    };
}

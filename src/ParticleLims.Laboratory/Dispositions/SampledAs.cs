using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>How a sample was taken, beside what its specification asks (21 CFR 211.165(d), from memory: the sampling plan is met before a lot is released).</summary>
/// <param name="Sample">The sample.</param>
/// <param name="Plan">The sampling plan; null where the specification has none.</param>
/// <param name="Acceptance">The quality manager's signature that it counts all the same; null where there is none.</param>
public sealed record SampledAs(Sample Sample, SamplingPlan? Plan, SamplingAcceptance? Acceptance)
{
    /// <summary>What stands in the way of any decision for the lot, in a sentence; null where the plan was carried out or the deviation accepted.</summary>
    public string? Blocker => Sample.SamplingLacks is { } lacks && Acceptance is null ? $"Sample {Sample.Code}: the sampling plan was not carried out ({lacks}). The quality manager can accept that by signature, with a reason." : null;

    /// <summary>Those of some samples, in the order of their codes.</summary>
    internal static async Task<IReadOnlyList<SampledAs>> OfAsync(LaboratoryContext data, IReadOnlyList<Guid> sampleIds, CancellationToken cancellation)
    {
        var samples = await data.Samples.AsNoTracking().Where(sample => sampleIds.Contains(sample.Id)).OrderBy(sample => sample.Code).ToListAsync(cancellation);
        var versionIds = samples.Select(sample => sample.SpecificationVersionId).Distinct().ToList();
        var plans = await data.SpecificationVersions.AsNoTracking().Where(version => versionIds.Contains(version.Id)).ToDictionaryAsync(version => version.Id, version => version.Sampling, cancellation);
        var accepted = await data.SamplingAcceptances.AsNoTracking().Where(one => sampleIds.Contains(one.SampleId)).ToDictionaryAsync(one => one.SampleId, cancellation);
        return samples.ConvertAll(sample => new SampledAs(sample, plans[sample.SpecificationVersionId], accepted.GetValueOrDefault(sample.Id)));
    }
}

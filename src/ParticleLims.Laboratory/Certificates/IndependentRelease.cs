using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>An inspection certificate in the style of type 3.1 needs a release by somebody who measured nothing of what it speaks of (EN 10204:2004, 3.5, in its sense).</summary>
internal static class IndependentRelease
{
    /// <exception cref="RefusedException">Whoever released the lot measured, started or submitted one of its runs.</exception>
    public static async Task RequireAsync(LaboratoryContext data, PaperKind kind, Lot lot, LotEvidence evidence, SampleResult result, CancellationToken cancellation)
    {
        if (kind != PaperKind.InspectionCertificate || evidence.Dispositions is not [.., var decision])
        {
            return;
        }

        var ids = result.Replicates.Select(replicate => replicate.Run.Id).ToList();
        var runs = await data.Runs.AsNoTracking().Whole().Where(run => ids.Contains(run.Id)).ToListAsync(cancellation);
        if (runs.Exists(run => Measured(run).Contains(decision.PersonId)))
        {
            throw new RefusedException(
                "release-not-independent", $"{decision.PersonName} released lot {lot.Number} and measured it too. An inspection certificate in the style of type 3.1 needs a release by somebody who did not: have another person decide on the lot, or choose another kind of paper for the customer.");
        }
    }

    private static IEnumerable<Guid> Measured(Run run) =>
        [.. new[] { run.StartedById, run.SubmittedById }.OfType<Guid>(), .. run.Operators.Select(one => one.PersonId), .. run.Weighings.Select(weighing => weighing.PersonId)];
}

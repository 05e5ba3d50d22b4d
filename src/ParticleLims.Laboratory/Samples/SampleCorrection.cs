using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Samples;

/// <summary>
/// Corrects a slip in what was written down when a sample arrived, with a reason; what stood there before stays in the record. Code, lot, method and specification stay.
/// What the sampling plan asks for is signed with the decision: it is corrected before that, or after the lot was opened again.
/// </summary>
public sealed class SampleCorrection(WritePath writing)
{
    /// <summary>How the codes of corrections begin.</summary>
    internal const string DeedFamily = "samples.correct";

    private static readonly DeedKind CorrectDeed = new("samples.correct", "Sample's particulars corrected", Permission.BookIn, ReasonRequired: true);
    private static readonly DeedKind CorrectDecidedDeed = new("samples.correct-decided", "Particulars of a decided lot's sample corrected", Permission.IssueCertificates, ReasonRequired: true);

    /// <summary>Corrects the particulars of a sample whose lot is not decided yet.</summary>
    /// <param name="actor">Who corrects.</param>
    /// <param name="sampleId">The sample.</param>
    /// <param name="shown">What stood there when it was read: whoever reads something older is refused.</param>
    /// <param name="corrected">What has to stand there.</param>
    /// <param name="reason">Why.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">The lot is decided, the sampling was accepted, nothing is changed, or no sample can be so.</exception>
    public Task<bool> CorrectAsync(Actor actor, Guid sampleId, SampleParticulars shown, SampleParticulars corrected, string reason, CancellationToken cancellation) =>
        CorrectAsync(new Deed(CorrectDeed, actor, Reason: reason), sampleId, shown, corrected, decided: false, cancellation);

    /// <summary>Corrects the particulars of a decided lot's sample: whoever issues the certificates does it, for they say it. Parameters as above.</summary>
    /// <exception cref="RefusedException">The lot is not decided, what the sampling plan asks for is changed, nothing is changed, or no sample can be so.</exception>
    public Task<bool> CorrectDecidedAsync(Actor actor, Guid sampleId, SampleParticulars shown, SampleParticulars corrected, string reason, CancellationToken cancellation) =>
        CorrectAsync(new Deed(CorrectDecidedDeed, actor, Reason: reason), sampleId, shown, corrected, decided: true, cancellation);

    private Task<bool> CorrectAsync(Deed deed, Guid sampleId, SampleParticulars shown, SampleParticulars corrected, bool decided, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var sample = await scope.FindAsync<Sample>(sampleId, "sample", token);
            var lot = await scope.FindAsync<Lot>(sample.LotId, "lot", token);
            lot.RequireCorrectable(decided);

            if (sample.Particulars != shown.Tidied)
            {
                throw new StaleVersionException($"Sample {sample.Code}");
            }

            var tidied = corrected.Tidied;
            tidied.Require(sample.ReceivedAt);
            if (tidied == sample.Particulars)
            {
                throw new RefusedException("nothing-corrected", "Nothing is different from what stands there.");
            }

            if (!tidied.SampledLike(sample.Particulars))
            {
                await RequireSamplingOpenAsync(scope, sample, lot, token);
                var plan = (await scope.FindAsync<SpecificationVersion>(sample.SpecificationVersionId, "specification", token)).Sampling;
                sample.SamplingLacks = plan?.Lacks(tidied.Increments, tidied.Mass, tidied.Recorded);
            }

            sample.Particulars = tidied;
            scope.About("Sample", sample.Id, $"{sample.Code} of lot {lot.Number}");
            return true;
        }, cancellation);

    private static async Task RequireSamplingOpenAsync(DeedScope scope, Sample sample, Lot lot, CancellationToken cancellation)
    {
        if (lot.IsDecided)
        {
            throw new RefusedException("sampling-signed", $"Increments, mass and what was written down on arrival were signed with the decision on lot {lot.Number}. The lot has to be opened again first.", "increments");
        }

        if (await scope.Data.SamplingAcceptances.FirstOrDefaultAsync(one => one.SampleId == sample.Id, cancellation) is { } accepted)
        {
            throw new RefusedException("sampling-signed", $"{accepted.PersonName} accepted sample {sample.Code} as it was sampled, by signature: increments, mass and what was written down on arrival stay.", "increments");
        }
    }
}

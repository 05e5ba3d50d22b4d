using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Samples;

/// <summary>Lets a sample count although the sampling plan was not carried out, over the quality manager's signature. Never whoever booked it in.</summary>
public sealed class SamplingAccepting(WritePath writing)
{
    private static readonly DeedKind AcceptDeed = new("samples.accept-sampling", "Sample accepted as sampled", Permission.DecideLots, ReasonRequired: true);

    /// <summary>Accepts it.</summary>
    /// <param name="actor">The quality manager.</param>
    /// <param name="sampleId">A sample that lacks something against its sampling plan.</param>
    /// <param name="reason">Why it shows the lot all the same; it is printed.</param>
    /// <param name="proof">The password given again.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<Guid> AcceptAsync(Actor actor, Guid sampleId, string reason, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AcceptDeed, actor, Reason: reason), async (scope, token) =>
        {
            var sample = await scope.FindAsync<Sample>(sampleId, "sample", token);
            var lot = await scope.FindAsync<Lot>(sample.LotId, "lot", token);
            scope.About("Sample", sample.Id, $"{sample.Code} of lot {lot.Number}");
            if (lot.IsDecided)
            {
                throw new RefusedException("lot-decided", $"Lot {lot.Number} is {lot.State.Words()} already.");
            }

            if (sample.SamplingLacks is not { } lacks)
            {
                throw new RefusedException("sampling-carried-out", $"Sample {sample.Code} lacks nothing against a sampling plan; there is nothing to accept.");
            }

            if (await scope.Data.SamplingAcceptances.AnyAsync(one => one.SampleId == sample.Id, token))
            {
                throw new RefusedException("sampling-accepted", $"Sample {sample.Code} was accepted as sampled already.");
            }

            SeparationOfDuties.Require(scope, (await SettingsKeeping.OfAsync(scope.Data, token)).OnePersonLaboratory, sample.ReceivedById, $"booked sample {sample.Code} in");
            var signature = scope.Sign(proof, SamplingAcceptance.Meaning, (nameof(Sample), sample.Id), SamplingAcceptance.ContentOf(sample.Code, lacks, reason.Trim()));
            var given = new SamplingAcceptance
            {
                Id = scope.NewId(), SampleId = sample.Id, SampleCode = sample.Code, Lacks = lacks, Reason = reason.Trim(), PersonName = scope.Marked(scope.By.Name), At = scope.Now, SignatureId = signature.Id,
            };
            scope.Data.Add(given);
            return given.Id;
        }, cancellation);
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>Suspends certificates while something is looked into, and reinstates them when it left them as they are.</summary>
public sealed class CertificateLife(WritePath writing)
{
    private static readonly DeedKind SuspendDeed = new("certificates.suspend", "Certificate suspended", Permission.IssueCertificates, ReasonRequired: true);
    private static readonly DeedKind ReinstateDeed = new("certificates.reinstate", "Certificate reinstated", Permission.IssueCertificates, ReasonRequired: true);

    /// <summary>Its public check says "suspended" from now on.</summary>
    public Task<bool> SuspendAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(SuspendDeed, actor, Reason: reason), id, version, (_, certificate, _) =>
        {
            certificate.Suspend(reason);
            return Task.CompletedTask;
        }, cancellation);

    /// <summary>It is genuine and current again, once its lots are released: one that was opened again is decided first. While a case is open that suspends it, only the case decides.</summary>
    public Task<bool> ReinstateAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(ReinstateDeed, actor, Reason: reason), id, version, async (scope, certificate, token) =>
        {
            if (await scope.Data.CertificateHolds.Where(hold => hold.CertificateId == id && hold.EndedAt == null).OrderBy(hold => hold.At).FirstOrDefaultAsync(token) is { } hold)
            {
                throw new RefusedException("certificate-held", $"Certificate {certificate.Number} is suspended while case {hold.CaseNumber} is open. Decide there; closing the case reinstates it or keeps it suspended.");
            }

            certificate.Reinstate();
            foreach (var lotId in await scope.Data.LotIdsOfAsync(certificate, token))
            {
                CertificateIssue.RequireReleased(await scope.FindAsync<Lot>(lotId, "lot", token));
            }
        }, cancellation);

    private Task<bool> ChangeAsync(Deed deed, Guid id, long version, Func<DeedScope, Certificate, CancellationToken, Task> change, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var certificate = await scope.FindAsync<Certificate>(id, "certificate", token);
            DeedScope.RequireVersion(certificate, version, certificate.Number);
            await change(scope, certificate, token);
            scope.About("Certificate", certificate.Id, certificate.Number);
            return true;
        }, cancellation);
}

using System.Security.Cryptography;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.Web.Start;

/// <summary>
/// Looks at the start for the key of the seal. The first one is made before the first certificate; where certificates were sealed already and the key is not there, nobody
/// makes another one in silence: it is said on the console, in the log, to the administrators and by the health page, and nothing is sealed until somebody has decided.
/// </summary>
public sealed partial class SealAtStart(SealKeys keys, NewestCertificate certificates, AlertRaising alerts, ILogger<SealAtStart> log)
{
    private static readonly TimeSpan AgainAfter = TimeSpan.FromDays(1);

    /// <summary>What is missing, in words for the console; null when nothing is.</summary>
    /// <param name="owner">The laboratory's name, which a new key carries.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="StartRefusedException">A key is there and cannot be read.</exception>
    public async Task<string?> LookAsync(string owner, CancellationToken cancellation)
    {
        try
        {
            var newest = await certificates.FindAsync(cancellation);
            var outcome = newest is null ? SealOutcome.NotSealed : SealCheck.Check(newest.Pdf, keys.Certificates()).Outcome;
            if (outcome != SealOutcome.NotSealed)
            {
                keys.Expect();
            }

            var missing = keys.IsGone ? $"The key that sealed certificate {newest!.Number} and others is not in {keys.Folder}. No certificate is issued and no head of the record leaves before the folder is put back from its copy, or the command new-seal-key has made a new key."
                : outcome == SealOutcome.KeyUnknown ? $"The public part of the key that sealed certificate {newest!.Number} is not in {keys.Folder}: the new key seals, but verify-certificate and /verify/keys here do not know the old one. Put the missing files back from the folder's copy."
                : null;
            if (missing is null)
            {
                keys.Current(owner);
            }
            else
            {
                Missing(log, missing);
                await alerts.RaiseAsync(AlertKind.SealKeyGone, missing, Guid.Empty, AgainAfter, cancellation);
            }

            return missing;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            throw new StartRefusedException($"A key of the seal in {keys.Folder} cannot be read: {fault.Message} Put the folder back from its copy, readable by the user of this program.");
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "{Missing}")]
    private static partial void Missing(ILogger log, string missing);
}

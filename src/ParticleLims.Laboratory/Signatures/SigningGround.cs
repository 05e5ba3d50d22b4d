using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Signatures;

/// <summary>Nobody signs before they have accepted the present version of the signing policy, nor with a password of which nobody has confirmed whose it is.</summary>
internal sealed class SigningGround(ReadPath reading) : ISigningGround
{
    /// <inheritdoc />
    public async Task<RefusedException?> NotYetAsync(Guid personId, CancellationToken cancellation)
    {
        if (await reading.ReadOpenlyAsync((data, token) => Activations.OpenAsync(data, personId, token), cancellation) is { } activation)
        {
            return new RefusedException("activation-not-confirmed", $"Your password was set with a code from {activation.IssuedBy}. Before you sign again, a quality manager or another administrator confirms under Access review that it was you.");
        }

        var open = await reading.ReadOpenlyAsync(async (data, token) =>
            await SigningPolicies.NowAsync(data, token) is var now && await SigningPolicies.IsAcceptedAsync(data, personId, now, token) ? null : now, cancellation);
        return open is null ? null : new RefusedException("policy-not-accepted", $"Accept version {open.Number} of the signing policy first: it stands in the signing dialog and under Your account. Then sign again.");
    }
}

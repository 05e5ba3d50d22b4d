using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>What a person has to do before the first signature. Implemented by Signatures.</summary>
public interface ISigningGround
{
    /// <summary>The refusal that a signature would meet; null where nothing stands in the way. Giving the password for something else is not held up.</summary>
    Task<RefusedException?> NotYetAsync(Guid personId, CancellationToken cancellation);
}

using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Stability;

/// <summary>How near a reading is to being taken.</summary>
/// <param name="WaitsFor">What is still waited for.</param>
/// <param name="Fraction">The part of the hold that has passed, 0 to 1, for a stability bar.</param>
/// <param name="Latest">The newest reading, stable or not; null if the newest line was refused or too old.</param>
/// <param name="Rejection">The newest line if it was refused.</param>
public sealed record WatchProgress(WaitReason WaitsFor, double Fraction, BalanceReading? Latest, RejectedLine? Rejection = null)
{
    /// <summary>
    /// The reading to be taken: the newest one as the balance sent it, never a mean. Null while something is waited for.
    /// </summary>
    public BalanceReading? Ready => WaitsFor == WaitReason.Nothing ? Latest : null;
}

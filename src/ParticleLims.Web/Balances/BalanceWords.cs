using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;

namespace ParticleLims.Web.Balances;

/// <summary>What a balance does, in words for the bench.</summary>
public static class BalanceWords
{
    /// <summary>What is waited for.</summary>
    /// <param name="progress">How things stand.</param>
    /// <param name="what">What is to go on the pan.</param>
    public static string Of(WatchProgress progress, string what)
    {
        ArgumentNullException.ThrowIfNull(progress);
        return progress.WaitsFor switch
        {
            WaitReason.Reading => "Waiting for the balance.",
            WaitReason.ReadableLine => progress.Rejection!.Reason,
            WaitReason.ClearedPan => "Take everything off the pan first.",
            WaitReason.Load => $"Put the {what} on the pan.",
            WaitReason.Stability => "Unstable: wait, close the draught shield.",
            WaitReason.Hold => "Steady, hold on.",
            WaitReason.Nothing => "Stable.",
            _ => throw new ArgumentOutOfRangeException(nameof(progress), progress.WaitsFor, "Not a reason."),
        };
    }

    /// <summary>That the link is not there, why, and what happens.</summary>
    public static string Lost(BalanceState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.Link == BalanceLink.Connecting && state.LostBecause is null
            ? "Connecting to the balance."
            : $"No link to the balance. {state.LostBecause} It is tried again by itself; check its cable and power.";
    }

    /// <summary>The decimals of a gram that a balance shows.</summary>
    public static int Decimals(Balance balance)
    {
        ArgumentNullException.ThrowIfNull(balance);
        var (decimals, step) = (6, balance.Readability.Micrograms);
        while (decimals > 0 && step % 10 == 0)
        {
            (decimals, step) = (decimals - 1, step / 10);
        }

        return decimals;
    }
}

using System.Globalization;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Balances;

/// <summary>What a balance does, in words for the bench.</summary>
public static class BalanceWords
{
    /// <summary>What is waited for.</summary>
    /// <param name="progress">How things stand.</param>
    /// <param name="what">What is to go on the pan.</param>
    /// <param name="prints">Whether the balance sends only when its print key is pressed.</param>
    public static string Of(WatchProgress progress, string what, bool prints = false)
    {
        ArgumentNullException.ThrowIfNull(progress);
        return progress.WaitsFor switch
        {
            WaitReason.Reading => prints ? $"Put the {what} on the pan, wait until it rests, and press the balance's print key." : "Waiting for the balance.",
            WaitReason.ReadableLine => progress.Rejection!.Reason,
            WaitReason.ClearedPan => "Take everything off the pan first.",
            WaitReason.AnotherLoad => "The balance printed the last weighing's mass again. If another load of the same mass lies there, press “Take now”.",
            WaitReason.Load => prints ? $"An empty pan was printed. Put the {what} on it and print again." : $"Put the {what} on the pan.",
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

    /// <summary>How the link stands, in a word or two, with the kind of its mark.</summary>
    public static (string Kind, string Words) Link(BalanceState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.Link switch
        {
            BalanceLink.Connected => ("good", "connected"),
            BalanceLink.Connecting => ("wait", "connecting"),
            _ => ("bad", "no link"),
        };
    }

    /// <summary>The age of the last line: <c>3 s ago</c>.</summary>
    public static string Age(BalanceState state, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.AgeOfLastLine(now) is { } age ? AgeWords((int)Math.Max(0, age.TotalSeconds)) : "none yet";
    }

    /// <summary>What was made of a line.</summary>
    public static string ReadAs(BalanceLine line) => line switch
    {
        Instruments.Readings.BalanceReading reading => $"{Say.Grams(reading.Mass, reading.Decimals)}, {(reading.Stable ? "stable" : "unstable")}",
        RejectedLine rejected => $"no mass: {rejected.Reason}",
        _ => throw new InvalidOperationException("A line is read or refused."),
    };

    /// <summary>Where a balance's lines come from, as people say it.</summary>
    public static string Where(BalanceWay way)
    {
        ArgumentNullException.ThrowIfNull(way);
        return way.WayIn switch
        {
            WayIn.Network => string.Create(CultureInfo.InvariantCulture, $"network, {way.Host} port {way.Port}"),
            WayIn.ServerPort => $"server's port {way.Device}, {Line(way)}",
            WayIn.TerminalPort => $"terminal's port, {Line(way)}",
            WayIn.Keyboard => "typed by the balance as keys of the terminal",
            _ => throw new ArgumentOutOfRangeException(nameof(way), way.WayIn, "Not a balance's way."),
        };
    }

    /// <summary>A parity in words.</summary>
    public static string Of(Laboratory.Balances.LineParity parity) => parity switch
    {
        Laboratory.Balances.LineParity.None => "none",
        Laboratory.Balances.LineParity.Even => "even",
        Laboratory.Balances.LineParity.Odd => "odd",
        _ => throw new ArgumentOutOfRangeException(nameof(parity), parity, "Not a parity."),
    };

    private static string Line(BalanceWay way) => string.Create(
        CultureInfo.InvariantCulture, $"{way.BaudRate} baud, {way.DataBits} data bits, parity {Of(way.Parity)}, {way.StopBits} stop {(way.StopBits == 1 ? "bit" : "bits")}");

    private static string AgeWords(int seconds) => seconds < 3_600 ? $"{Say.Seconds(seconds)} ago" : string.Create(CultureInfo.InvariantCulture, $"{seconds / 3_600} h ago");

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

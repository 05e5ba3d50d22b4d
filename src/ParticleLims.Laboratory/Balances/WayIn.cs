namespace ParticleLims.Laboratory.Balances;

/// <summary>The way by which a balance's readings come in.</summary>
public enum WayIn
{
    /// <summary>Over the network, from the balance or a converter before it.</summary>
    Network,

    /// <summary>At a serial port of the server.</summary>
    ServerPort,

    /// <summary>At a serial port of the terminal, through its browser.</summary>
    TerminalPort,

    /// <summary>Typed as keys at the terminal, by the balance itself.</summary>
    Keyboard,

    /// <summary>Keyed by a person because the balance did not answer; never a balance's own way.</summary>
    KeyedByHand,
}

/// <summary>Ways in, in words.</summary>
public static class WayInWords
{
    /// <summary>The way as people say it.</summary>
    public static string Words(this WayIn way) => way switch
    {
        WayIn.Network => "network",
        WayIn.ServerPort => "server's port",
        WayIn.TerminalPort => "terminal's port",
        WayIn.Keyboard => "typed by the balance",
        WayIn.KeyedByHand => "keyed by hand",
        _ => throw new ArgumentOutOfRangeException(nameof(way), way, "Not a way in."),
    };
}

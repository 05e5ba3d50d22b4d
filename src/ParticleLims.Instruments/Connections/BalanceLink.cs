namespace ParticleLims.Instruments.Connections;

/// <summary>How the link to a balance stands.</summary>
public enum BalanceLink
{
    /// <summary>An attempt to reach the balance is under way.</summary>
    Connecting,

    /// <summary>The balance is reached; whether lines come in tells <see cref="BalanceState.AgeOfLastLine"/>.</summary>
    Connected,

    /// <summary>The balance is not reached; another attempt follows by itself.</summary>
    Lost,
}

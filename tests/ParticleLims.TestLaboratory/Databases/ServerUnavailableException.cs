namespace ParticleLims.TestLaboratory.Databases;

/// <summary>A database server could not be had in one way; the message says why, for people.</summary>
public sealed class ServerUnavailableException : Exception
{
    /// <summary>Without a reason.</summary>
    public ServerUnavailableException()
    {
    }

    /// <summary>With the reason.</summary>
    public ServerUnavailableException(string message)
        : base(message)
    {
    }

    /// <summary>With the reason and what caused it.</summary>
    public ServerUnavailableException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

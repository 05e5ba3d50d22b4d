namespace ParticleLims.Instruments.Connections;

/// <summary>One attempt to open the place of a balance's lines, and what was opened until it is disposed.</summary>
internal abstract class LineOpening : IDisposable
{
    /// <summary>Opens; null when nothing answered in time.</summary>
    public abstract Task<Stream?> OpenAsync(CancellationToken ct);

    /// <summary>Why it failed, in words for the bench; null where the failure has none of its own.</summary>
    public abstract string? Explain(Exception failure);

    /// <inheritdoc />
    public abstract void Dispose();
}

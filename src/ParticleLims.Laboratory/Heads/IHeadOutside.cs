namespace ParticleLims.Laboratory.Heads;

/// <summary>What a head needs of the machine: the laboratory's key, and a folder. Implemented by the program.</summary>
public interface IHeadOutside
{
    /// <summary>Signs the lines with the key that seals certificates.</summary>
    byte[] Sign(string laboratory, string lines);

    /// <summary>Writes a file that is not there yet; answers what kept it from it, in words, and null for nothing.</summary>
    Task<string?> WriteAsync(string folder, string name, string text, CancellationToken cancellation);
}

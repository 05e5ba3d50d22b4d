using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using ParticleLims.Laboratory.Heads;

namespace ParticleLims.TestLaboratory;

/// <summary>A folder in memory, and a signature that tells nothing more than what was signed.</summary>
public sealed class PlainHeads : IHeadOutside
{
    /// <summary>What was written, by folder and name.</summary>
    public ConcurrentDictionary<string, string> Files { get; } = [];

    /// <summary>What keeps it from writing; null for nothing.</summary>
    public string? Fault { get; set; }

    /// <inheritdoc />
    public byte[] Sign(string laboratory, string lines) => SHA256.HashData(Encoding.UTF8.GetBytes(laboratory + lines));

    /// <inheritdoc />
    public Task<string?> WriteAsync(string folder, string name, string text, CancellationToken cancellation)
    {
        if (Fault is null && !Files.TryAdd($"{folder}/{name}", text))
        {
            throw new IOException("It is there already.");
        }

        return Task.FromResult(Fault);
    }
}

using System.Collections.Concurrent;
using System.Security.Cryptography;

namespace ParticleLims.Laboratory.People;

/// <summary>Keeps something for a few minutes under a random handle, in memory: after a restart one simply begins again.</summary>
internal sealed class OneUse<T>(TimeProvider clock, TimeSpan lasts)
    where T : class
{
    /// <summary>So many at most: whoever asks endlessly pushes out the oldest, not the memory's limit.</summary>
    private const int Most = 10_000;

    private readonly ConcurrentDictionary<string, (T Value, DateTimeOffset Until)> kept = new(StringComparer.Ordinal);

    /// <summary>Keeps it and answers its handle of 128 random bits.</summary>
    public string Keep(T value)
    {
        var now = clock.GetUtcNow();
        if (kept.Count >= Most)
        {
            foreach (var old in kept.OrderBy(one => one.Value.Until).Take(Most / 10).ToList())
            {
                kept.TryRemove(old);
            }
        }

        var handle = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        kept[handle] = (value, now + lasts);
        return handle;
    }

    /// <summary>Looks at it; null when there is none or its time is over.</summary>
    public T? Find(string handle) => kept.TryGetValue(handle, out var found) && found.Until > clock.GetUtcNow() ? found.Value : null;

    /// <summary>Takes it away; the next one finds nothing.</summary>
    public T? Take(string handle) => kept.TryRemove(handle, out var found) && found.Until > clock.GetUtcNow() ? found.Value : null;
}

using System.Collections.Concurrent;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Web.Templates;

/// <summary>Drafts that are being written, in memory alone, so that their preview can be fetched as a file. Only whoever writes one sees it.</summary>
internal sealed class PreviewShelf
{
    /// <summary>So many editors at once; beyond that the oldest draft gives way, and comes back with its next change.</summary>
    private const int Most = 50;

    private readonly ConcurrentDictionary<Guid, Laid> laid = new();
    private long count;

    /// <summary>Lays a draft in its place, or in the place of what lay there before.</summary>
    public void Lay(Guid key, Guid personId, TemplateDraft draft)
    {
        laid[key] = new Laid(personId, draft, Interlocked.Increment(ref count));
        foreach (var old in laid.OrderByDescending(one => one.Value.Order).Skip(Most))
        {
            laid.TryRemove(old.Key, out _);
        }
    }

    /// <summary>The draft of that person; null when there is none.</summary>
    public TemplateDraft? Find(Guid key, Guid? personId) => laid.TryGetValue(key, out var one) && one.PersonId == personId ? one.Draft : null;

    /// <summary>The editor was closed.</summary>
    public void Clear(Guid key) => laid.TryRemove(key, out _);

    private sealed record Laid(Guid PersonId, TemplateDraft Draft, long Order);
}

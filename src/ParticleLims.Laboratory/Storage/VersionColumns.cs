using Microsoft.EntityFrameworkCore;

namespace ParticleLims.Laboratory.Storage;

/// <summary>A thing that people change: its version counts up at each change, and a change made from an older version is refused.</summary>
public interface IVersioned
{
    /// <summary>1 when first stored.</summary>
    long Version { get; set; }
}

/// <summary>Makes every <see cref="IVersioned.Version"/> the concurrency token of its row.</summary>
internal static class VersionColumns
{
    public static void Apply(ModelBuilder builder)
    {
        foreach (var entity in builder.Model.GetEntityTypes().Where(entity => typeof(IVersioned).IsAssignableFrom(entity.ClrType)))
        {
            entity.FindProperty(nameof(IVersioned.Version))!.IsConcurrencyToken = true;
        }
    }
}

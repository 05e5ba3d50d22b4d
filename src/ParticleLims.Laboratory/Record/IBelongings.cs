using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>Says what belongs to other things, so that the record can tell everything about a lot: its samples, their runs, and so on. Each feature says it of its own.</summary>
public interface IBelongings
{
    /// <summary>The keys of what belongs to some things directly.</summary>
    /// <param name="data">The database.</param>
    /// <param name="things">The keys of the things.</param>
    /// <param name="cancellation">Ends the looking.</param>
    Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation);
}

namespace ParticleLims.Laboratory.Record;

/// <summary>
/// Looks at what a deed changed and adds what follows from it in the same transaction and under the same event: whoever has to be told is told whichever deed it was. Each feature brings its own; none of them
/// changes a row that the deed changed.
/// </summary>
public interface IFollowsDeeds
{
    /// <summary>Adds what follows; nothing where the deed is none of its business.</summary>
    /// <param name="scope">The deed, its changes known.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    Task FollowAsync(DeedScope scope, CancellationToken cancellation);
}

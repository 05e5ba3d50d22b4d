using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>Looks each person up once: in the history nobody's roles change. It lives only while the history is made.</summary>
internal sealed class RememberedStandings(TimeProvider clock) : IAuthority
{
    private readonly Authority authority = new(clock);
    private readonly Dictionary<Guid, Standing> known = [];

    /// <inheritdoc />
    public async Task<Standing> StandingOfAsync(LaboratoryContext data, Actor actor, CancellationToken cancellation)
    {
        if (actor.PersonId is not { } id)
        {
            return await authority.StandingOfAsync(data, actor, cancellation);
        }

        return known.TryGetValue(id, out var standing) ? standing : known[id] = await authority.StandingOfAsync(data, actor, cancellation);
    }
}

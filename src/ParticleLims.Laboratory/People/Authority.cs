using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>Who somebody is and what they may do, read from the database each time: a role withdrawn is withdrawn at once.</summary>
public sealed class Authority(TimeProvider clock) : IAuthority
{
    private static readonly Standing Program = new(null, "ParticleLims", "Program", new HashSet<Permission> { Permission.ActAsProgram }, null);
    private static readonly Standing Nobody = new(null, "Not signed on", "None", new HashSet<Permission>(), null);

    private static readonly CompiledQuery<Guid, PersonFound?> Found = new((data, id) => data.Set<Person>().AsNoTracking().Where(person => person.Id == id)
        .Select(person => new PersonFound(person.FullName, person.Active, person.CustomerId, person.Roles.Select(role => role.Role).ToList(), data.Set<SignOnRules>().Any(rules => rules.SecondFactorForDecisions))).FirstOrDefault());

    /// <inheritdoc />
    public async Task<Standing> StandingOfAsync(LaboratoryContext data, Actor actor, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentNullException.ThrowIfNull(actor);
        if (actor.PersonId is not { } id)
        {
            return ReferenceEquals(actor, Actor.Program) ? Program : Nobody;
        }

        var person = await Found.AskAsync(data, id);
        if (person is not { Active: true })
        {
            throw new NotPermittedException(person?.FullName ?? "This account", null);
        }

        var session = await SessionAsync(data, actor);
        var byPin = session?.Way.IsByPin() == true;
        var held = person.Roles.SelectMany(role => RolePermissions.All[role]).Where(permission => !byPin || RolePermissions.AfterPin.Contains(permission)).ToHashSet();
        var withheld = person.SecondFactorDemanded && session?.Way.HasSecondFactor() == false ? held.Where(RolePermissions.BehindSecondFactor.Contains).ToHashSet() : [];
        held.ExceptWith(withheld);
        var function = string.Join(", ", person.Roles.Order().Select(role => role.Words()));
        return new Standing(id, person.FullName, function, held, person.CustomerId) { EnrolledTerminal = session is { TerminalId: not null } ? session.Terminal : null, ByPin = byPin, Withheld = withheld };
    }

    // Asked in the transaction of the deed: what a screen still shows does not count.
    private async Task<SessionSeen?> SessionAsync(LaboratoryContext data, Actor actor)
    {
        if (actor.SessionId is not { } id)
        {
            return null;
        }

        var session = (await Sessions.Ground.AskAsync(data, id))?.At(clock.GetUtcNow());
        return session is null || session.PersonId != actor.PersonId ? throw new SessionOverException("This session is unknown here. Sign on again.")
            : session.Words is { } over ? throw new SessionOverException($"{over} Nothing was saved.")
            : session;
    }

    private sealed record PersonFound(string FullName, bool Active, Guid? CustomerId, List<Role> Roles, bool SecondFactorDemanded);
}

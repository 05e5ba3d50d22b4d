using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.People;

/// <summary>Who somebody is and what they may do, read from the database each time: a role withdrawn is withdrawn at once.</summary>
public sealed class Authority : IAuthority
{
    private static readonly Standing Program = new(null, "ParticleLims", "Program", new HashSet<Permission> { Permission.ActAsProgram }, null);
    private static readonly Standing Nobody = new(null, "Not signed on", "None", new HashSet<Permission>(), null);

    private static readonly CompiledQuery<Guid, PersonFound?> Found = new((data, id) => data.Set<Person>().AsNoTracking().Where(person => person.Id == id)
        .Select(person => new PersonFound(person.FullName, person.Active, person.CustomerId, person.Roles.Select(role => role.Role).ToList())).FirstOrDefault());

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

        var permissions = person.Roles.SelectMany(role => RolePermissions.All[role]).ToHashSet();
        var function = string.Join(", ", person.Roles.Order().Select(role => role.Words()));
        return new Standing(id, person.FullName, function, permissions, person.CustomerId);
    }

    private sealed record PersonFound(string FullName, bool Active, Guid? CustomerId, List<Role> Roles);
}

using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>What an actor is and may do at this moment, read from the database in the transaction of the deed.</summary>
public sealed record Standing(Guid? PersonId, string Name, string Function, IReadOnlySet<Permission> Permissions, Guid? CustomerId)
{
    /// <summary>Refuses in words when the permission is not held.</summary>
    /// <exception cref="NotPermittedException">The permission is not held.</exception>
    public void Require(Permission permission)
    {
        if (!Permissions.Contains(permission))
        {
            throw new NotPermittedException(Name, permission);
        }
    }

    /// <summary>Whether the permission is held.</summary>
    public bool May(Permission permission) => Permissions.Contains(permission);
}

/// <summary>Looks up who somebody is and what they may do. Implemented by People.</summary>
public interface IAuthority
{
    /// <exception cref="NotPermittedException">The person is unknown or disabled.</exception>
    Task<Standing> StandingOfAsync(LaboratoryContext data, Actor actor, CancellationToken cancellation);
}

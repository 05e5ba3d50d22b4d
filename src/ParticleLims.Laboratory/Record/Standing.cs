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
            throw Withheld.Contains(permission)
                ? new SecondFactorMissingException(permission)
                : new NotPermittedException(Name, permission, ByPin);
        }
    }

    /// <summary>The name under which the terminal of the session is enrolled; null for any other.</summary>
    public string? EnrolledTerminal { get; init; }

    /// <summary>Whether the session was begun with a PIN: it carries no power of the office.</summary>
    public bool ByPin { get; init; }

    /// <summary>What the person may do, but not in this session, which was begun without a second factor.</summary>
    public IReadOnlySet<Permission> Withheld { get; init; } = new HashSet<Permission>();

    /// <summary>Whether the permission is held.</summary>
    public bool May(Permission permission) => Permissions.Contains(permission);
}

/// <summary>Looks up who somebody is and what they may do. Implemented by People.</summary>
public interface IAuthority
{
    /// <exception cref="NotPermittedException">The person is unknown or disabled.</exception>
    Task<Standing> StandingOfAsync(LaboratoryContext data, Actor actor, CancellationToken cancellation);
}

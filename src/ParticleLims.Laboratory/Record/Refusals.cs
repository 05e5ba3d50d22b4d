namespace ParticleLims.Laboratory.Record;

/// <summary>A deed refused in words: what is wrong, where, and what to do. Nothing was written.</summary>
public class RefusedException(string code, string message, string? member = null) : Exception(message)
{
    /// <summary>A stable code for programs, for example <c>lot-number-used</c>.</summary>
    public string Code { get; } = code;

    /// <summary>The input it is about, when there is one.</summary>
    public string? Member { get; } = member;
}

/// <summary>The actor does not hold the permission that the deed needs.</summary>
public sealed class NotPermittedException(string name, Permission? permission)
    : RefusedException("not-permitted", permission is null
        ? $"{name} is not signed on or has been disabled. Sign on again."
        : $"{name} does not hold the permission “{Words(permission.Value)}”. Ask somebody who does, or the administrator.")
{
    /// <summary>The permission that was missing; null when the person is unknown or disabled.</summary>
    public Permission? Permission { get; } = permission;

    private static string Words(Permission permission) =>
        string.Concat(permission.ToString().Select((letter, index) => index > 0 && char.IsUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : letter.ToString()));
}

/// <summary>Somebody else changed the thing since it was read.</summary>
public sealed class StaleVersionException(string what)
    : RefusedException("changed-meanwhile", $"{what} was changed by somebody else since you opened it. Nothing of yours was saved; look at it again and repeat what you still want.");

namespace ParticleLims.Laboratory.Record;

/// <summary>A deed refused in words: what is wrong, where, and what to do. Nothing was written.</summary>
public class RefusedException(string code, string message, string? member = null, Exception? innerException = null) : Exception(message, innerException)
{
    /// <summary>A stable code for programs, for example <c>lot-number-used</c>.</summary>
    public string Code { get; } = code;

    /// <summary>The input it is about, when there is one.</summary>
    public string? Member { get; } = member;
}

/// <summary>The actor does not hold the permission that the deed needs.</summary>
public class NotPermittedException : RefusedException
{
    /// <summary>Says which permission is missing, or that nobody is signed on.</summary>
    /// <param name="name">The person.</param>
    /// <param name="permission">What is missing; null when the person is unknown or disabled.</param>
    /// <param name="afterPin">Whether it may be missing only because the person signed on with a PIN.</param>
    public NotPermittedException(string name, Permission? permission, bool afterPin = false)
        : base("not-permitted", permission is null
            ? $"{name} is not signed on or has been disabled. Sign on again."
            : afterPin
            ? $"{name} signed on with a PIN, and the permission “{permission.Value.Words()}” is not used that way. Sign on with your password if you hold it."
            : $"{name} does not hold the permission “{permission.Value.Words()}”. Ask somebody who does, or the administrator.") => Permission = permission;

    /// <summary>Says in other words why nothing is permitted.</summary>
    /// <param name="code">A stable code.</param>
    /// <param name="words">The words.</param>
    /// <param name="permission">What is missing; null when everything is.</param>
    protected NotPermittedException(string code, string words, Permission? permission)
        : base(code, words) => Permission = permission;

    /// <summary>The permission that was missing; null when the person is unknown or disabled.</summary>
    public Permission? Permission { get; }
}

/// <summary>The session in which somebody wants to act is over: locked, handed over, or the ground for it is gone.</summary>
public sealed class SessionOverException(string words) : NotPermittedException("session-over", words, null);

/// <summary>The permission is held, but the session was begun without the second factor that the laboratory asks for.</summary>
public sealed class SecondFactorMissingException(Permission permission) : NotPermittedException(
    "second-factor-missing", $"This laboratory asks for a second factor before “{permission.Words()}”. Set one up under Your account, then sign on with it.", permission);

/// <summary>Somebody else changed the thing since it was read.</summary>
public sealed class StaleVersionException(string what)
    : RefusedException("changed-meanwhile", $"{what} was changed by somebody else since you opened it. Nothing of yours was saved; look at it again and repeat what you still want.");

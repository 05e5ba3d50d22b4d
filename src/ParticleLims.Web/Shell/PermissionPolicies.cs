using Microsoft.AspNetCore.Authorization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>One policy a permission. The answer comes from the database each time, so a role withdrawn closes its pages at once.</summary>
internal static class PermissionPolicies
{
    public static string NameOf(Permission permission) => "needs-" + permission;

    public static void AddAll(AuthorizationOptions options)
    {
        foreach (var permission in Enum.GetValues<Permission>())
        {
            options.AddPolicy(NameOf(permission), policy => policy.RequireAuthenticatedUser().AddRequirements(new PermissionRequirement(permission)));
        }
    }
}

internal sealed record PermissionRequirement(Permission Permission) : IAuthorizationRequirement;

/// <summary>Asks the laboratory whether the person who is signed on holds the permission.</summary>
internal sealed class PermissionHandler(ReadPath reading) : AuthorizationHandler<PermissionRequirement>
{
    protected override async Task HandleRequirementAsync(AuthorizationHandlerContext context, PermissionRequirement requirement)
    {
        if (SessionIdentity.ActorOf(context.User, "page") is { PersonId: not null } actor && await HoldsAsync(actor, requirement.Permission))
        {
            context.Succeed(requirement);
        }
    }

    private async Task<bool> HoldsAsync(Actor actor, Permission permission)
    {
        try
        {
            return (await reading.StandingOfAsync(actor, CancellationToken.None)).May(permission);
        }
        catch (NotPermittedException)
        {
            return false;
        }
    }
}

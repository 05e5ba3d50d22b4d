using Microsoft.AspNetCore.Authorization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>States on a page or an endpoint the permission without which it is not shown. Whoever is not signed on is sent to sign on first.</summary>
[AttributeUsage(AttributeTargets.Class | AttributeTargets.Method)]
public sealed class NeedsAttribute : AuthorizeAttribute
{
    /// <summary>The page needs this permission.</summary>
    public NeedsAttribute(Permission permission)
        : base(PermissionPolicies.NameOf(permission)) => Permission = permission;

    /// <summary>The permission.</summary>
    public Permission Permission { get; }
}

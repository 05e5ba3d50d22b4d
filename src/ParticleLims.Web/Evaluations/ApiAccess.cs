using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.Extensions.Options;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.Evaluations;

/// <summary>Bearer tokens for programs: scoped, expiring, stored hashed.</summary>
internal static class ApiAccess
{
    public const string Scheme = "Bearer";
    private const string ScopeClaim = "scope";

    public static void AddApiAccess(this IServiceCollection services)
    {
        services.AddAuthentication().AddScheme<AuthenticationSchemeOptions, TokenHandler>(Scheme, null);
        services.AddAuthorizationBuilder().AddPolicy(Policy(TokenScope.Evaluate), policy => Require(policy, TokenScope.Evaluate));
        services.AddProblemDetails();
    }

    public static string Policy(TokenScope scope) => $"api:{scope}";

    /// <summary>How the record names the place that a program calls from.</summary>
    public static string Terminal(HttpContext context) => $"api {context.Connection.RemoteIpAddress}";

    private static void Require(AuthorizationPolicyBuilder policy, TokenScope scope)
    {
        policy.AuthenticationSchemes.Add(Scheme);
        policy.RequireAuthenticatedUser().RequireClaim(ScopeClaim, scope.ToString());
    }

    private sealed class TokenHandler(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory loggers, UrlEncoder encoder, ApiTokens tokens)
        : AuthenticationHandler<AuthenticationSchemeOptions>(options, loggers, encoder)
    {
        private const string Prefix = "Bearer ";

        protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
        {
            var header = Request.Headers.Authorization.ToString();
            if (!header.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase))
            {
                return AuthenticateResult.NoResult();
            }

            if (await tokens.RecogniseAsync(header[Prefix.Length..].Trim(), Terminal(Context), Context.RequestAborted) is not { } holder)
            {
                return AuthenticateResult.Fail("The token is unknown, expired or revoked.");
            }

            var identity = new ClaimsIdentity(
                [new(ClaimTypes.NameIdentifier, holder.Actor.PersonId!.Value.ToString("D")), .. holder.Scopes.Select(scope => new Claim(ScopeClaim, scope.ToString()))], ApiAccess.Scheme);
            return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), ApiAccess.Scheme));
        }

        protected override Task HandleChallengeAsync(AuthenticationProperties properties)
        {
            Response.Headers.WWWAuthenticate = "Bearer";
            return Results.Problem(statusCode: StatusCodes.Status401Unauthorized, title: "A token is needed", detail: "Send “Authorization: Bearer …” with a token that is neither expired nor revoked.").ExecuteAsync(Context);
        }

        protected override Task HandleForbiddenAsync(AuthenticationProperties properties) =>
            Results.Problem(statusCode: StatusCodes.Status403Forbidden, title: "The token does not reach so far", detail: "This token has not the scope that the request needs.").ExecuteAsync(Context);
    }
}

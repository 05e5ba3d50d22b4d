using Microsoft.AspNetCore.Antiforgery;

namespace ParticleLims.Web.Shell;

/// <summary>A form post counts only when it comes from a page of ours: without its token it is answered 400 and nothing is done.</summary>
internal sealed class FormGuard(IAntiforgery antiforgery) : IEndpointFilter
{
    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next) =>
        await antiforgery.IsRequestValidAsync(context.HttpContext) ? await next(context) : Results.StatusCode(StatusCodes.Status400BadRequest);
}

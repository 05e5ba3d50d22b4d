using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Diagnostics;

namespace ParticleLims.Web.Shell;

/// <summary>The page that says why something was refused or went wrong is read, not posted: it must not fail over the form that was refused.</summary>
internal sealed class AnswerAsPage(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext context)
    {
        var method = context.Request.Method;
        if (context.Features.Get<IStatusCodeReExecuteFeature>() is not null || context.Features.Get<IExceptionHandlerFeature>() is not null)
        {
            context.Request.Method = HttpMethods.Get;
            context.Features.Set<IAntiforgeryValidationFeature>(null);
        }

        try
        {
            await next(context);
        }
        finally
        {
            context.Request.Method = method;
        }
    }
}

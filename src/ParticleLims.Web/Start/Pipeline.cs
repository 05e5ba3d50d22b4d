using ParticleLims.Web.Certificates;
using ParticleLims.Web.Evaluations;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Start;

/// <summary>What every request passes through.</summary>
internal static class Pipeline
{
    public static void Use(WebApplication application)
    {
        application.UseMiddleware<SecurityHeaders>();
        application.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandlingPath = "/error", CreateScopeForErrors = true, SuppressDiagnosticsCallback = _ => true });
        application.UseStatusCodePagesWithReExecute("/answer/{0}", createScopeForStatusCodePages: true);
        application.UseRateLimiter();
        application.UseAuthentication();
        application.UseAuthorization();
        application.UseAntiforgery();
        application.MapStaticAssets();
        application.MapSessionEndpoints();
        application.MapApi();
        application.MapCertificates();
        application.MapRazorComponents<App>().AddInteractiveServerRenderMode();
    }
}

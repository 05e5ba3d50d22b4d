using ParticleLims.Web.Evaluations;

namespace ParticleLims.Web.Shell;

/// <summary>What every request passes through.</summary>
internal static class Pipeline
{
    public static void Use(WebApplication application)
    {
        application.UseExceptionHandler("/error", createScopeForErrors: true);
        application.UseMiddleware<SecurityHeaders>();
        application.UseStatusCodePagesWithReExecute("/not-found", createScopeForStatusCodePages: true);
        application.UseAuthentication();
        application.UseAuthorization();
        application.UseAntiforgery();
        application.MapStaticAssets();
        application.MapSessionEndpoints();
        application.MapApi();
        application.MapRazorComponents<App>().AddInteractiveServerRenderMode();
    }
}

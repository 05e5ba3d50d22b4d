using ParticleLims.Web.Certificates;
using ParticleLims.Web.Equipment;
using ParticleLims.Web.Evaluations;
using ParticleLims.Web.Exchange;
using ParticleLims.Web.Record;
using ParticleLims.Web.Shell;
using ParticleLims.Web.Templates;
using ParticleLims.Web.Terminals;
using Serilog;

namespace ParticleLims.Web.Start;

/// <summary>What every request passes through.</summary>
internal static class Pipeline
{
    public static void Use(WebApplication application)
    {
        application.UseForwardedHeaders();
        application.UseMiddleware<SecurityHeaders>();
        application.UseHsts();
        application.UseSerilogRequestLogging(RequestNotes.Configure);
        application.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandlingPath = "/error", CreateScopeForErrors = true, SuppressDiagnosticsCallback = _ => true });
        application.UseStatusCodePagesWithReExecute("/answer/{0}", createScopeForStatusCodePages: true);
        application.UseMiddleware<AnswerAsPage>();
        application.UseMiddleware<SocketOrigin>();
        application.UseRateLimiter();
        application.UseAuthentication();
        application.UseAuthorization();
        application.UseAntiforgery();
        application.MapStaticAssets();
        application.MapHealth();
        application.MapSessionEndpoints();
        application.MapTerminals();
        application.MapRecordExport();
        application.MapApi();
        application.MapCertificates();
        application.MapTemplates();
        application.MapEquipmentDocuments();
        application.MapEquipmentExchange();
        application.MapPictureFiles();
        application.MapRazorComponents<App>().AddInteractiveServerRenderMode();
    }
}

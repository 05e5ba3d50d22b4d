using System.Globalization;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using MudBlazor.Services;
using ParticleLims.CertificatePdf;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Storage.Postgres;
using ParticleLims.Storage.Sqlite;
using ParticleLims.Web.Balances;
using ParticleLims.Web.Evaluations;
using ParticleLims.Web.Runs;
using ParticleLims.Web.Shell;
using Serilog;

namespace ParticleLims.Web.Start;

/// <summary>Puts the program together.</summary>
public static class WebBuilding
{
    /// <summary>Builds the program; it is opened and run afterwards.</summary>
    public static WebApplication Build(string[] arguments)
    {
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.InvariantCulture;
        var options = StartOptions.Read(arguments);
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = options.Rest, ApplicationName = typeof(WebBuilding).Assembly.GetName().Name, ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseStaticWebAssets();
        builder.Host.UseSerilog((_, logging) => logging.MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", Serilog.Events.LogEventLevel.Warning)
            .WriteTo.Console(formatProvider: CultureInfo.InvariantCulture));
        AddServices(builder.Services, options);
        var application = builder.Build();
        Pipeline.Use(application);
        return application;
    }

    /// <summary>Registers everything; also used by tests.</summary>
    public static void AddServices(IServiceCollection services, StartOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        Directory.CreateDirectory(options.DataFolder);
        services.AddSingleton(options).AddSingleton<Opening>();
        if (options.DatabaseConnection is { } connection)
        {
            services.AddPostgresStorage(connection);
        }
        else
        {
            services.AddSqliteStorage(options.DatabaseFile);
        }

        services.AddSingleton<ICertificateDrawing, CertificatePdfWriter>();
        services.AddLaboratory();
        services.AddDataProtection().SetApplicationName("ParticleLims").PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(options.DataFolder, "keys")));
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddMudServices();
        services.AddHttpContextAccessor().AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, SessionStateProvider>();
        services.AddScoped<CurrentActor>().AddScoped<LaboratoryClock>().AddScoped<Look>();
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(SessionCookie.Configure);
        services.AddAuthorization(PermissionPolicies.AddAll).AddSingleton<IAuthorizationHandler, PermissionHandler>();
        services.AddExceptionHandler<FaultNoting>();
        services.AddRateLimiter(RateLimits.Configure);
        services.AddAntiforgery(form => form.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest);
        services.AddApi();
        services.AddBalances(options.Demonstration, options.DataFolder).AddBench();
    }
}

using System.Globalization;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.HttpOverrides;
using MudBlazor.Services;
using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Storage.Postgres;
using ParticleLims.Storage.Sqlite;
using ParticleLims.Web.Alerts;
using ParticleLims.Web.Balances;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Evaluations;
using ParticleLims.Web.Heads;
using ParticleLims.Web.Outgoing;
using ParticleLims.Web.Runs;
using ParticleLims.Web.People;
using ParticleLims.Web.Shell;
using ParticleLims.Web.SievingUnits;
using Serilog;

namespace ParticleLims.Web.Start;

/// <summary>Puts the program together.</summary>
public static class WebBuilding
{
    /// <summary>Builds the program; it is opened and run afterwards.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="change">Replaces services; for tests.</param>
    public static WebApplication Build(string[] arguments, Action<IServiceCollection>? change = null)
    {
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.InvariantCulture;
        var options = StartOptions.Read(arguments, Environment.GetEnvironmentVariable);
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = options.Rest, ApplicationName = typeof(WebBuilding).Assembly.GetName().Name, ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseStaticWebAssets().ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
        builder.Host.UseSerilog((_, logging) => logging.MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", Serilog.Events.LogEventLevel.Warning)
            // Why it does not start is said in words once; the keys are kept in a folder that its owner alone reads.
            .MinimumLevel.Override("Microsoft.Extensions.Hosting", Serilog.Events.LogEventLevel.Fatal)
            .MinimumLevel.Override("Microsoft.AspNetCore.DataProtection", Serilog.Events.LogEventLevel.Error)
            .WriteTo.Console(formatProvider: CultureInfo.InvariantCulture));
        AddServices(builder.Services, options);
        change?.Invoke(builder.Services);
        var application = builder.Build();
        Pipeline.Use(application);
        return application;
    }

    /// <summary>Registers everything; also used by tests.</summary>
    public static void AddServices(IServiceCollection services, StartOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        services.AddSingleton(new PracticePlace(options.Practice, options.PracticeAddress));
        services.AddSingleton(options).AddSingleton<DataFolder>().AddSingleton<SealAtStart>().AddSingleton<Opening>();
        if (options.DatabaseConnection is { } connection)
        {
            services.AddPostgresStorage(connection);
        }
        else
        {
            services.AddSqliteStorage(options.DatabaseFile);
        }

        services.AddSingleton(all => new SealKeys(options.SealFolder, all.GetRequiredService<TimeProvider>())).AddSingleton<ICertificateDrawing, CertificatePdfWriter>();
        services.AddSingleton<ISecretSealing, SecretSealing>().AddSingleton<IPasskeyCeremony, PasskeyCeremony>();
        services.AddLaboratory();
        services.AddDataProtection().SetApplicationName("ParticleLims").PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(options.DataFolder, "keys")));
        services.AddRazorComponents().AddInteractiveServerComponents();
        services.AddMudServices();
        services.AddHttpContextAccessor().AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, SessionStateProvider>();
        services.AddSingleton<Templates.PreviewShelf>();
        services.AddSingleton<SessionWatch>().AddHostedService<IdleLock>();
        services.AddScoped<CurrentActor>().AddScoped<LaboratoryClock>().AddScoped<Look>().AddScoped<TypedLines>();
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(SessionCookie.Configure);
        services.AddAuthorization(PermissionPolicies.AddAll).AddSingleton<IAuthorizationHandler, PermissionHandler>();
        services.AddExceptionHandler<FaultNoting>();
        services.AddRateLimiter(RateLimits.Configure);
        services.AddAntiforgery(form => form.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest);
        services.AddHsts(hsts => hsts.MaxAge = TimeSpan.FromDays(365));
        services.Configure<ForwardedHeadersOptions>(forwarded => Believe(forwarded, options.Proxy));
        services.AddApi();
        services.AddSingleton<IHeadOutside, HeadOutside>().AddHostedService<HeadWork>().AddHostedService<ClockWork>().AddHostedService<AfterDisorder>();
        services.AddBalances(options.Demonstration, options.AccessFile).AddSievingUnits().AddBench().AddOutgoing(options.OutgoingFolder);
    }

    private static void Believe(ForwardedHeadersOptions forwarded, System.Net.IPNetwork? proxy)
    {
        forwarded.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
        if (proxy is { } network)
        {
            forwarded.KnownIPNetworks.Add(network);
        }
    }
}

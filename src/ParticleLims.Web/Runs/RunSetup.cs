using Microsoft.AspNetCore.Components.Server.Circuits;

namespace ParticleLims.Web.Runs;

/// <summary>Adds what the bench needs beside the laboratory's services.</summary>
internal static class RunSetup
{
    public static IServiceCollection AddBench(this IServiceCollection services) =>
        services.AddScoped<ScreenPresence>().AddScoped<CircuitHandler>(all => all.GetRequiredService<ScreenPresence>())
            .AddSingleton<RunChanges>().AddSingleton<RunSeats>().AddSingleton(all => BenchTiming.Read(all.GetRequiredService<IConfiguration>()));
}

using ParticleLims.Instruments.Connections;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>Adds the balances' links and, in the demonstration, the simulated balance.</summary>
internal static class BalanceSetup
{
    /// <summary>The simulated balance starts first, so that its address stands in the register before anybody listens.</summary>
    public static IServiceCollection AddBalances(this IServiceCollection services, bool demonstration, string accessFile) =>
        services.AddSingleton(new SimulationPlace(demonstration, accessFile)).AddSingleton(all => new BalanceConnections(all.GetRequiredService<TimeProvider>())).AddSingleton<BalanceLines>()
            .AddSingleton<IReadingFormatCheck, FormatCheck>().AddSingleton<KnownFormats>().AddSingleton<RefusedLines>().AddScoped<ScreenBalances>()
            .AddSingleton<SimulatedBalanceHost>().AddHostedService(all => all.GetRequiredService<SimulatedBalanceHost>())
            .AddHostedService<BalanceListening>();
}

namespace ParticleLims.Web.SievingUnits;

/// <summary>Adds the links to pressure gauges and, in the demonstration, the simulated gauge.</summary>
internal static class SievingUnitSetup
{
    public static IServiceCollection AddSievingUnits(this IServiceCollection services) =>
        services.AddSingleton<Gauges>().AddHostedService<SimulatedGaugeHost>().AddHostedService<GaugeListening>();
}

namespace ParticleLims.Web.Runs;

/// <summary>Adds what the bench needs beside the laboratory's services.</summary>
internal static class RunSetup
{
    public static IServiceCollection AddBench(this IServiceCollection services) =>
        services.AddSingleton<RunChanges>().AddSingleton(all => BenchTiming.Read(all.GetRequiredService<IConfiguration>()));
}

using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Web.SievingUnits;

/// <summary>Listens to the gauge of every sieving unit in service from the start of the program on, and follows the register when an address changes.</summary>
internal sealed partial class GaugeListening(SievingUnitRegister register, Gauges gauges, TimeProvider clock, ILogger<GaugeListening> log) : BackgroundService
{
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(5);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Interval, clock);
        try
        {
            do
            {
                await FollowAsync(stoppingToken);
            }
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The program ends, or did not get as far as starting.
        }
    }

    private async Task FollowAsync(CancellationToken cancellation)
    {
        try
        {
            await gauges.FollowAsync(await register.WithGaugeAsync(cancellation));
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            // The register is asked again in a moment; the links that stand go on meanwhile.
            RegisterNotRead(log, fault);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The register of sieving units could not be read.")]
    private static partial void RegisterNotRead(ILogger log, Exception fault);
}

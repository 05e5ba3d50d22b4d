using ParticleLims.Laboratory.Alerts;

namespace ParticleLims.Web.Alerts;

/// <summary>Looks every few seconds whether the server's clock jumped.</summary>
internal sealed partial class ClockWork(ClockWatch watch, TimeProvider clock, ILogger<ClockWork> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(10);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, clock);
        do
        {
            try
            {
                await watch.LookAsync(stoppingToken);
            }
            catch (Exception fault) when (!stoppingToken.IsCancellationRequested)
            {
                NotLooked(log, fault);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The server's clock could not be compared.")]
    private static partial void NotLooked(ILogger log, Exception fault);
}

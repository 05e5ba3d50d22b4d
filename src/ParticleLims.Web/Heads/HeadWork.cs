using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Heads;

/// <summary>Lets a head of the record leave whenever the plan says so.</summary>
internal sealed partial class HeadWork(HeadDeparture departure, TimeProvider clock, ILogger<HeadWork> log) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await departure.LeaveDueAsync(stoppingToken);
            }
            catch (RefusedException refusal) when (refusal.Code == "not-set-up")
            {
                // There is no laboratory yet.
            }
            catch (Exception fault) when (!stoppingToken.IsCancellationRequested)
            {
                NotLeft(log, fault);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "No head of the record could leave.")]
    private static partial void NotLeft(ILogger log, Exception fault);
}

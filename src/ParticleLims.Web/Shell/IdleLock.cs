using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Web.Shell;

/// <summary>Locks each enrolled terminal that nobody touched for the set time, whatever its browser says or does not say.</summary>
internal sealed partial class IdleLock(SessionWatch watch, Sessions sessions, SettingsKeeping settings, TimeProvider clock, ILogger<IdleLock> log) : BackgroundService
{
    /// <summary>Locks those that are due.</summary>
    public async Task LockAsync(CancellationToken cancellation)
    {
        // No set time is shorter than a minute: until then nothing needs to be asked.
        if (watch.UntouchedFor(TimeSpan.FromMinutes(1)).Count == 0 || await settings.FindAsync(cancellation) is not { } rules)
        {
            return;
        }

        foreach (var session in watch.UntouchedFor(TimeSpan.FromMinutes(rules.LockAfterMinutes)))
        {
            try
            {
                await sessions.LockIdleAsync(session, cancellation);
            }
            catch (RefusedException)
            {
                // It was ended otherwise meanwhile.
            }

            watch.End(session);
        }
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromSeconds(1), clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await LockAsync(stoppingToken);
            }
            catch (Exception fault) when (fault is not OperationCanceledException)
            {
                // The next second tries again; a database that does not answer must not end the locking for good.
                NotLocked(log, fault);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "A terminal that nobody touches could not be locked.")]
    private static partial void NotLocked(ILogger log, Exception fault);
}

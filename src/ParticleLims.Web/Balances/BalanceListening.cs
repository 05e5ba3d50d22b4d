using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>Listens to every balance in service from the start of the program on, and follows the register when an address or a format changes.</summary>
internal sealed partial class BalanceListening(BalanceRegister register, BalanceLines lines, KnownFormats formats, RefusedLines refused, TimeProvider clock, ILogger<BalanceListening> log) : BackgroundService
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
            await formats.RefreshAsync(cancellation);
            var reached = new HashSet<Guid>();
            foreach (var balance in await register.InServiceAsync(cancellation))
            {
                if (lines.Of(balance) is { } connection)
                {
                    reached.Add(balance.Id);
                    refused.Watch(balance.Id, balance.Label, connection);
                }
            }

            await lines.KeepOnlyAsync(reached);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            // The register is asked again in a moment; the links that stand go on meanwhile.
            RegisterNotRead(log, fault);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The register of balances could not be read.")]
    private static partial void RegisterNotRead(ILogger log, Exception fault);
}

using ParticleLims.Laboratory.Outgoing;

namespace ParticleLims.Web.Outgoing;

/// <summary>Sends what is due, one message after another, as long as the program runs.</summary>
internal sealed partial class OutgoingWork(OutgoingSending sending, IEnumerable<ICarrier> carriers, TimeProvider clock, ILogger<OutgoingWork> log) : BackgroundService
{
    private const int AtOnce = 20;
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(5);

    /// <summary>Tries everything that is due; answers how many were taken.</summary>
    public async Task<int> SendDueAsync(CancellationToken cancellation)
    {
        var sent = 0;
        foreach (var letter in await sending.DueAsync(clock.GetUtcNow(), AtOnce, cancellation))
        {
            try
            {
                var outcome = await CarryAsync(letter, cancellation);
                await sending.SentAsync(letter.Message.Id, outcome, cancellation);
                sent++;
            }
            catch (NotCarriedException refused)
            {
                _ = refused.ForGood ? await sending.RefusedAsync(letter.Message.Id, refused.Message, cancellation) : await sending.FailedAsync(letter.Message.Id, refused.Message, cancellation);
                NotCarried(log, letter.Message.Id, letter.Message.Kind, refused.Message);
            }
        }

        return sent;
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, clock);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await SendDueAsync(stoppingToken);
            }
            catch (Exception fault) when (!stoppingToken.IsCancellationRequested)
            {
                // What waits goes on waiting; a database that does not answer must not end the sending for good.
                NotSent(log, fault);
            }
        }
    }

    private async Task<string> CarryAsync(Letter letter, CancellationToken cancellation)
    {
        var carrier = carriers.Single(one => one.Way == letter.Message.Way);
        return letter.Missing is { } missing
            ? throw new NotCarriedException($"The file {missing} is not there any more.")
            : letter.Ways.IsOpen(carrier.Way) ? await CarryAsync(carrier, letter, cancellation) : throw new NotCarriedException("This way was shut meanwhile. Open it under Outgoing messages, then try again.");
    }

    // Whatever goes wrong with one message, the others are still sent, and this one says so in the record.
    private async Task<string> CarryAsync(ICarrier carrier, Letter letter, CancellationToken cancellation)
    {
        try
        {
            return await carrier.CarryAsync(letter, cancellation);
        }
        catch (Exception fault) when (fault is not NotCarriedException && !cancellation.IsCancellationRequested)
        {
            NotSent(log, fault);
            throw new NotCarriedException($"The program could not send it ({fault.GetType().Name}); its log says more.", fault);
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "Message {Id} ({Kind}) was not taken: {Words}")]
    private static partial void NotCarried(ILogger log, Guid id, string kind, string words);

    [LoggerMessage(Level = LogLevel.Error, Message = "Outgoing messages could not be sent.")]
    private static partial void NotSent(ILogger log, Exception fault);
}

/// <summary>What the sending needs.</summary>
internal static class OutgoingSetup
{
    /// <summary>Adds it. While no way is set, nothing goes out.</summary>
    public static IServiceCollection AddOutgoing(this IServiceCollection services, string secretsFolder) => services
        .AddSingleton(new OutgoingSecrets(secretsFolder, Environment.GetEnvironmentVariable)).AddSingleton(CarryingTime.Usual)
        .AddSingleton<ICarrier, MailCarrier>().AddSingleton<ICarrier, WebhookCarrier>()
        .AddSingleton<OutgoingWork>().AddHostedService(all => all.GetRequiredService<OutgoingWork>());
}

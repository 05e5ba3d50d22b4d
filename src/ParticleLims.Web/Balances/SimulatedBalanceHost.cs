using System.Globalization;
using System.Net.Sockets;
using ParticleLims.Instruments.Simulation;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Readings;

namespace ParticleLims.Web.Balances;

/// <summary>Whether this is the demonstration, and where its access file lies.</summary>
public sealed record SimulationPlace(bool Demonstration, string AccessFile);

/// <summary>
/// Runs the simulated balance of the demonstration on the port under which the register has it. <c>--balance-port</c> asks for another
/// (0 for any free one), <c>--balance-control-port</c> for that of the control channel, <c>--balance-speed</c> for a quicker settling.
/// </summary>
public sealed partial class SimulatedBalanceHost(SimulationPlace place, IConfiguration configuration, BalanceRegister register, KnownFormats formats, TimeProvider clock, ILogger<SimulatedBalanceHost> log) : IHostedService
{
    /// <summary>The balance; null outside the demonstration, or where the register has none at this machine.</summary>
    public SimulatedBalance? Simulated { get; private set; }

    /// <summary>Which balance of the register it is.</summary>
    public Guid? BalanceId { get; private set; }

    /// <inheritdoc />
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        if (!place.Demonstration)
        {
            return;
        }

        await formats.RefreshAsync(cancellationToken);
        if ((await register.InServiceAsync(cancellationToken)).Find(IsHere) is not { } registered)
        {
            return;
        }

        var wanted = (int)Number("balance-port", registered.Port);
        Simulated = Start(registered, wanted);
        BalanceId = registered.Id;
        if (Simulated.Port != registered.Port)
        {
            await register.FollowSimulationAsync(registered.Id, "127.0.0.1", Simulated.Port, cancellationToken);
        }

        Answers(log, registered.Label, Simulated.Port, Simulated.ControlPort ?? 0);
        await NoteAccessAsync(Simulated, cancellationToken);
    }

    /// <inheritdoc />
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        if (Simulated is { } running)
        {
            await running.DisposeAsync();
        }
    }

    private bool IsHere(Balance balance) => balance is { WayIn: WayIn.Network, Host: "127.0.0.1" or "localhost" } && formats.Find(balance.ReadingFormat) is not null;

    private SimulatedBalance Start(Balance registered, int port)
    {
        var wanted = new SimulatedBalanceOptions
        {
            Serial = registered.Serial, Readability = registered.Readability, Capacity = registered.Capacity, Port = port, ControlPort = (int)Number("balance-control-port", 0),
            Checksum = formats.Find(registered.ReadingFormat)!.Checksum != Instruments.Readings.LineChecksum.None, SpeedFactor = Number("balance-speed", 1),
        };
        try
        {
            return SimulatedBalance.Start(wanted, clock);
        }
        catch (SocketException)
        {
            PortTaken(log, port);
            return SimulatedBalance.Start(wanted with { Port = 0, ControlPort = 0 }, clock);
        }
    }

    private double Number(string key, double otherwise) =>
        configuration[key] is { Length: > 0 } text
            ? double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : throw new InvalidOperationException($"The option --{key} needs a number, not “{text}”.")
            : otherwise;

    private async Task NoteAccessAsync(SimulatedBalance running, CancellationToken cancellation)
    {
        var file = place.AccessFile;
        if (!File.Exists(file))
        {
            return;
        }

        var kept = (await File.ReadAllLinesAsync(file, cancellation)).Where(line => !line.StartsWith("simulated-balance", StringComparison.Ordinal));
        string[] added =
        [
            string.Create(CultureInfo.InvariantCulture, $"simulated-balance: 127.0.0.1:{running.Port}"),
            string.Create(CultureInfo.InvariantCulture, $"simulated-balance-control: 127.0.0.1:{running.ControlPort}"),
        ];
        await File.WriteAllLinesAsync(file, [.. kept, .. added], cancellation);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "The simulated {Balance} answers at 127.0.0.1:{Port}, its control channel at 127.0.0.1:{ControlPort}.")]
    private static partial void Answers(ILogger log, string balance, int port, int controlPort);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Port {Port} is taken; the simulated balance takes a free one.")]
    private static partial void PortTaken(ILogger log, int port);
}

using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Simulation;

/// <summary>
/// A bench balance that is not there: a real TCP server on the loopback address that sends plain lines, takes time to
/// settle, drifts, trembles and can be overloaded, with a pan that a program, a page or a script loads. For training,
/// demonstration and tests; its weighings are no measurements. Clients may send <c>READ</c>, <c>TARE</c> and <c>ZERO</c>.
/// Thread-safe.
/// </summary>
public sealed class SimulatedBalance : IAsyncDisposable
{
    private static readonly Mass GreatestLoad = Mass.FromGrams(1_000_000m);

    private readonly TimeProvider _clock;
    private readonly PanModel _pan;
    private readonly Lock _gate = new();
    private readonly long _started;
    private readonly LineServer _lines;
    private readonly LineServer? _control;
    private readonly CancellationTokenSource _ending = new();
    private readonly Task _sending;
    private int _disposed;

    private SimulatedBalance(SimulatedBalanceOptions options, TimeProvider clock)
    {
        Options = options;
        _clock = clock;
        _pan = new PanModel(options);
        _started = clock.GetTimestamp();
        _lines = new LineServer(options.Port, Command);
        _control = options.ControlPort is { } port ? StartControl(port) : null;
        _sending = Task.Run(SendAsync);
    }

    /// <summary>What kind of balance this is.</summary>
    public SimulatedBalanceOptions Options { get; }

    /// <summary>The TCP port of the lines.</summary>
    public int Port => _lines.Port;

    /// <summary>The TCP port of the control channel, null without one.</summary>
    public int? ControlPort => _control?.Port;

    /// <summary>How many clients are connected to the lines.</summary>
    public int Clients => _lines.Clients;

    /// <summary>What lies on the pan.</summary>
    public Mass Load
    {
        get
        {
            lock (_gate)
            {
                return _pan.Load;
            }
        }
    }

    /// <summary>Starts a balance with an empty pan.</summary>
    /// <exception cref="ArgumentException">The options cannot be used.</exception>
    /// <exception cref="System.Net.Sockets.SocketException">A port is taken.</exception>
    public static SimulatedBalance Start(SimulatedBalanceOptions options, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(clock);
        return options.Problems() is { Count: > 0 } problems
            ? throw new ArgumentException(string.Join(' ', problems), nameof(options))
            : new SimulatedBalance(options, clock);
    }

    /// <summary>Puts a load on the pan in place of what lay there.</summary>
    /// <param name="load">0 g to 1000 kg; above the capacity the balance shows overload.</param>
    public void LoadPan(Mass load)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(load, Mass.Zero);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(load, GreatestLoad);
        lock (_gate)
        {
            _pan.Put(load, Now());
        }
    }

    /// <summary>Takes everything off the pan.</summary>
    public void ClearPan() => LoadPan(Mass.Zero);

    /// <summary>Knocks the bench: the balance is unstable for a while.</summary>
    public void Disturb()
    {
        lock (_gate)
        {
            _pan.Disturb(Now());
        }
    }

    /// <summary>Shows zero at the present load from now on.</summary>
    public void Tare()
    {
        lock (_gate)
        {
            _pan.Tare(Now());
        }
    }

    /// <summary>Sets the zero of the empty pan and forgets the tare; false with more than 2 % of the capacity on the pan.</summary>
    public bool Zero()
    {
        lock (_gate)
        {
            return _pan.Zero(Now());
        }
    }

    /// <summary>The line that the balance would send now.</summary>
    public string CurrentLine()
    {
        PanView view;
        lock (_gate)
        {
            view = _pan.Look(Now());
        }

        return view.Overloaded
            ? PlainLine.WriteOverload(Options.Serial, Options.Checksum)
            : PlainLine.Write(view.Shown, Options.Decimals, view.Stable, Options.Serial, Options.Checksum);
    }

    /// <summary>Sends a line of any content to all clients, as a damaged line would come.</summary>
    public void SendRaw(string line) => _lines.SendToAll(line);

    /// <summary>Breaks the links to all clients, as a pulled plug would; new ones are accepted.</summary>
    public void DropConnections() => _lines.DropAll();

    /// <summary>Stops the balance and frees its ports.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 1)
        {
            return;
        }

        await _ending.CancelAsync();
        await _sending;
        await _lines.DisposeAsync();
        if (_control is not null)
        {
            await _control.DisposeAsync();
        }

        _ending.Dispose();
    }

    private LineServer StartControl(int port)
    {
        try
        {
            return new LineServer(port, new ControlChannel(this).Answer);
        }
        catch
        {
            _lines.DisposeAsync().AsTask().GetAwaiter().GetResult();
            _ending.Dispose();
            throw;
        }
    }

    private double Now() => _clock.GetElapsedTime(_started).TotalSeconds * Options.SpeedFactor;

    private string? Command(string command)
    {
        switch (command)
        {
            case "READ":
                return CurrentLine();
            case "TARE":
                Tare();
                return null;
            case "ZERO":
                Zero();
                return null;
            default:
                return null;
        }
    }

    private async Task SendAsync()
    {
        if (Options.LineEvery is not { } interval)
        {
            return;
        }

        using var timer = new PeriodicTimer(interval, _clock);
        try
        {
            while (await timer.WaitForNextTickAsync(_ending.Token))
            {
                _lines.SendToAll(CurrentLine());
            }
        }
        catch (OperationCanceledException)
        {
            // Stopped.
        }
    }
}

using System.IO.Ports;

namespace ParticleLims.Instruments.Connections;

/// <summary>Opens a serial port of this machine.</summary>
internal sealed class SerialOpening(SerialPlace place, BalanceConnectionOptions options, TimeProvider clock) : LineOpening
{
    private readonly SerialPort _port = new(place.Device, place.Line.BaudRate, ParityOf(place.Line.Parity), place.Line.DataBits, place.Line.StopBits == 2 ? StopBits.Two : StopBits.One);
    private Task _opening = Task.CompletedTask;

    public override async Task<Stream?> OpenAsync(CancellationToken ct)
    {
        // Asked first, because on Linux a port that is not there is reported like one that may not be opened.
        if (!OperatingSystem.IsWindows() && !File.Exists(place.Device))
        {
            throw new FileNotFoundException(null, place.Device);
        }

        // A driver may take its time over opening, and cannot be told to stop.
        _opening = Task.Run(_port.Open, CancellationToken.None);
        try
        {
            await _opening.WaitAsync(options.ConnectTimeout, clock, ct);
        }
        catch (TimeoutException)
        {
            return null;
        }

        RaiseWires();
        return _port.BaseStream;
    }

    public override string? Explain(Exception failure) => failure switch
    {
        FileNotFoundException or DirectoryNotFoundException => $"{place.Words} is not there: is its cable in, and is the device's name right?",
        UnauthorizedAccessException => $"{place.Words} may not be opened: another program has it, or the account of this program lacks the right to serial ports.",
        ArgumentException => $"{place.Words} cannot be used: it is no serial port, or it does not take these line settings.",
        IOException or InvalidOperationException or ObjectDisposedException => $"{place.Words} broke off: is its cable in?",
        _ => null,
    };

    public override void Dispose()
    {
        if (_opening.IsCompleted)
        {
            Close();
        }
        else
        {
            _ = _opening.ContinueWith(_ => Close(), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        }
    }

    private static Parity ParityOf(LineParity parity) => parity switch { LineParity.Even => Parity.Even, LineParity.Odd => Parity.Odd, _ => Parity.None };

    // Some balances send only to a partner that says it is ready. Not every adapter has the wires for it.
    private void RaiseWires()
    {
        try
        {
            (_port.DtrEnable, _port.RtsEnable) = (true, true);
        }
        catch (IOException)
        {
            // Without these wires the line works all the same.
        }
    }

    private void Close()
    {
        try
        {
            _port.Dispose();
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or InvalidOperationException)
        {
            // The device went away with its cable; there is nothing left to close.
        }
    }
}

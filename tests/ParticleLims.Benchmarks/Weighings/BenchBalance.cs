using System.Diagnostics;
using Microsoft.Extensions.Time.Testing;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Simulation;
using ParticleLims.Instruments.Stability;
using ParticleLims.Web.Balances;
using Balance = ParticleLims.Laboratory.Balances.Balance;
using LaboratoryReading = ParticleLims.Laboratory.Balances.BalanceReading;

namespace ParticleLims.Benchmarks.Weighings;

/// <summary>
/// A balance on TCP, followed as the bench's screen follows it. The lines are sent one by one and the clock is moved between them, so that the hold of the
/// bench's rules is kept in full and yet takes no time of the measurement.
/// </summary>
internal sealed class BenchBalance : IAsyncDisposable
{
    private const string Serial = "B-0417";
    private static readonly TimeSpan BetweenLines = TimeSpan.FromMilliseconds(500);

    private readonly FakeTimeProvider clock;
    private readonly SimulatedBalance balance;
    private readonly BalanceConnection connection;
    private readonly LiveBalance live;

    public BenchBalance(Guid balanceId, FakeTimeProvider clock)
    {
        this.clock = clock;
        balance = SimulatedBalance.Start(new SimulatedBalanceOptions { Serial = Serial, LineEvery = null, Checksum = false }, TimeProvider.System);
        connection = new BalanceConnection(new BalanceAddress("127.0.0.1", balance.Port, PlainLine.Format, Serial), new BenchClock(clock));
        var registered = new Balance { Id = balanceId, Serial = Serial, Name = Serial, Place = Serial, Host = "127.0.0.1", ReadingFormat = PlainLine.Format.Name };
        live = new LiveBalance(connection, registered, new StableReadingRules { PanMustReturnToZero = true }, lastLoadMayBeOnPan: false, clock);
    }

    /// <summary>Waits for the link. The first line after it may be cut and is not read.</summary>
    public async Task ConnectAsync()
    {
        while (balance.Clients == 0 || connection.State.Link != BalanceLink.Connected)
        {
            await Task.Delay(5);
        }

        balance.SendRaw(Line(0m));
    }

    /// <summary>Clears the pan, puts a load on it and answers the reading that may be taken, with when its line was sent.</summary>
    public async Task<(LaboratoryReading Reading, long Sent)> WeighAsync(decimal grams)
    {
        await SendAsync(Line(0m), progress => progress.WaitsFor == WaitReason.Load);
        var (line, held) = (Line(grams), TimeSpan.Zero);
        for (; held < new StableReadingRules().HoldFor; held += BetweenLines)
        {
            await SendAsync(line, progress => progress.WaitsFor == WaitReason.Hold);
        }

        var (sent, progress) = await SendAsync(line, progress => progress.Ready is not null);
        return (live.ForLaboratory(progress.Ready!), sent);
    }

    /// <summary>The reading is safe.</summary>
    public void Taken() => live.Taken(null);

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        live.Dispose();
        await connection.DisposeAsync();
        await balance.DisposeAsync();
    }

    private static string Line(decimal grams) => PlainLine.Write(Mass.FromGrams(grams), 3, stable: true, Serial, checksum: false);

    // Sends a line half a second of the clock after the one before, and waits until the screen would know it.
    private async Task<(long Sent, WatchProgress Progress)> SendAsync(string line, Func<WatchProgress, bool> expected)
    {
        clock.Advance(BetweenLines);
        var (now, seen) = (clock.GetUtcNow(), new TaskCompletionSource<WatchProgress>(TaskCreationOptions.RunContinuationsAsynchronously));
        void Look(object? sender, EventArgs change)
        {
            if (live.Progress is { Latest: { } latest } progress && latest.At == now)
            {
                seen.TrySetResult(progress);
            }
        }

        live.Changed += Look;
        var sent = Stopwatch.GetTimestamp();
        balance.SendRaw(line);
        var found = await seen.Task.WaitAsync(TimeSpan.FromSeconds(30));
        live.Changed -= Look;
        return expected(found) ? (sent, found) : throw new InvalidOperationException($"After the line “{line}” the bench waits for {found.WaitsFor}.");
    }

    // The time of the laboratory, which leaps while powder is sieved; the link's patience is that of the real clock.
    private sealed class BenchClock(FakeTimeProvider laboratory) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => laboratory.GetUtcNow();
    }
}

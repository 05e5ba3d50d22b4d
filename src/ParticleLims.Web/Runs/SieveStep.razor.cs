using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Runs;

/// <summary>Shows the sieving that goes on. The seconds left follow from the start on disk, so a reload or a restart changes nothing.</summary>
public sealed partial class SieveStep : IDisposable
{
    private readonly CancellationTokenSource leaving = new();
    private PressurePart? pressure;
    private bool busy;

    /// <summary>The run.</summary>
    [Parameter, EditorRequired] public RunView View { get; set; } = null!;

    /// <summary>The sieving.</summary>
    [Parameter, EditorRequired] public RunStep Step { get; set; } = null!;

    /// <summary>Nothing begins or ends while something else is under way or wrong.</summary>
    [Parameter] public bool Blocked { get; set; }

    /// <summary>Whether the stretch may be ended by this screen itself now.</summary>
    [Parameter, EditorRequired] public Func<bool> ByItself { get; set; } = () => false;

    /// <summary>Begins a stretch.</summary>
    [Parameter, EditorRequired] public EventCallback Begin { get; set; }

    /// <summary>Ends the stretch, with the pressure if it was read.</summary>
    [Parameter, EditorRequired] public EventCallback<PressureSeen?> End { get; set; }

    [Inject] private TimeProvider Time { get; set; } = null!;

    private RunSieve? Sieve => View.Run.Sieves.Find(sieve => sieve.Position == Step.Position);

    private SievingInterval? Open => View.Run.Intervals.Find(interval => interval.Position == Step.Position && interval.Round == Step.Round && interval.EndedAt is null);

    private int Before => RunPlan.SecondsSieved(View.Run, Step);

    private int Planned => RunPlan.SecondsPlanned(View.Method, Step);

    private int Left
    {
        get
        {
            var now = Open is { } open ? (int)Math.Floor((Time.GetUtcNow() - open.StartedAt).TotalSeconds) : 0;
            return Math.Max(0, Planned - Before - Math.Max(0, now));
        }
    }

    private int Percent => 100 * (Planned - Left) / Planned;

    private string Words => Open switch
    {
        null when Before > 0 => $"{Say.Seconds(Before)} of {Say.Seconds(Planned)} are sieved. The rest is still to come.",
        null => $"Set {Say.Seconds(Planned)} on the unit. Start it and press the button together.",
        _ when Left > 0 => "Sieving. It ends here by itself; the unit stops by its own timer.",
        _ when pressure is { IsUnfinished: true } => "Time is over. Finish or clear the pressure, then press “End”.",
        _ => "Time is over.",
    };

    /// <inheritdoc />
    public void Dispose()
    {
        leaving.Cancel();
        leaving.Dispose();
    }

    /// <inheritdoc />
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            _ = TickAsync(leaving.Token);
        }
    }

    private static string Clocked(int seconds) => string.Create(CultureInfo.InvariantCulture, $"{seconds / 60}:{seconds % 60:00}");

    private async Task TickAsync(CancellationToken cancellation)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromMilliseconds(250), Time);
        try
        {
            while (await timer.WaitForNextTickAsync(cancellation))
            {
                await InvokeAsync(EndWhenOverAsync);
            }
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            // The step was left.
        }
    }

    private async Task EndWhenOverAsync()
    {
        if (Open is not null && Left == 0 && !Blocked && ByItself() && pressure is not { IsUnfinished: true })
        {
            await EndAsync();
        }

        StateHasChanged();
    }

    private async Task BeginAsync()
    {
        busy = true;
        await Begin.InvokeAsync();
        busy = false;
    }

    private async Task EndAsync()
    {
        if (busy || pressure is { IsUnfinished: true })
        {
            return;
        }

        busy = true;
        await End.InvokeAsync(pressure?.Seen());
        busy = false;
    }
}

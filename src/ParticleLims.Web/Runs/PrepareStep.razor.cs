using System.Globalization;
using Microsoft.AspNetCore.Components;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Runs;

/// <summary>Shows one preparation. The time left follows from the start on disk, so a reload or a restart changes nothing.</summary>
public sealed partial class PrepareStep : IDisposable
{
    private readonly CancellationTokenSource leaving = new();
    private string batch = string.Empty;
    private string oven = string.Empty;

    /// <summary>The run.</summary>
    [Parameter, EditorRequired] public RunView View { get; set; } = null!;

    /// <summary>The preparation.</summary>
    [Parameter, EditorRequired] public RunStep Step { get; set; } = null!;

    /// <summary>Nothing is saved while something else is under way or wrong.</summary>
    [Parameter] public bool Blocked { get; set; }

    /// <summary>The room's conditions were read.</summary>
    [Parameter, EditorRequired] public EventCallback<RoomConditions> Read { get; set; }

    /// <summary>Drying or conditioning begins, with the oven's temperature.</summary>
    [Parameter, EditorRequired] public EventCallback<Temperature?> Begin { get; set; }

    /// <summary>Drying or conditioning ends.</summary>
    [Parameter, EditorRequired] public EventCallback End { get; set; }

    /// <summary>The flow aid of this batch is mixed in.</summary>
    [Parameter, EditorRequired] public EventCallback<string> Mix { get; set; }

    [Inject] private TimeProvider Time { get; set; } = null!;

    [Inject] private LaboratoryClock Clock { get; set; } = null!;

    private bool IsDrying => Step.Preparation == PreparationKind.Drying;

    private Preparation? Going => View.Run.Preparations.Find(one => one.Kind == Step.Preparation && one.EndedAt is null);

    private TypedNumber Oven => NumberReading.Read(oven, 20m, 400m, 1);

    private TimeSpan Left
    {
        get
        {
            var minutes = (IsDrying ? View.Method.Preparation.DryingMinutes : View.Method.Preparation.ConditioningMinutes) ?? 0;
            var left = Going is { } going ? going.StartedAt.AddMinutes(minutes) - Time.GetUtcNow() : TimeSpan.Zero;
            return left > TimeSpan.Zero ? left : TimeSpan.Zero;
        }
    }

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

    private static string Clocked(TimeSpan left)
    {
        var seconds = (long)Math.Ceiling(left.TotalSeconds);
        return string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600}:{seconds / 60 % 60:00}:{seconds % 60:00}");
    }

    private async Task TickAsync(CancellationToken cancellation)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromSeconds(1), Time);
        try
        {
            while (await timer.WaitForNextTickAsync(cancellation))
            {
                await InvokeAsync(StateHasChanged);
            }
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            // The step was left.
        }
    }

    private Task BeginAsync() => Begin.InvokeAsync(IsDrying ? Temperature.FromCelsius(Oven.Value!.Value) : null);
}

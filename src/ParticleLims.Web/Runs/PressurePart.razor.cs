using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using ParticleLims.Instruments.Pressures;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Web.Controls;
using ParticleLims.Web.SievingUnits;

namespace ParticleLims.Web.Runs;

/// <summary>Shows the differential pressure of the stretch that goes on and hands it over at its end.</summary>
public sealed partial class PressurePart : IDisposable
{
    private static readonly PlotLayout Strip = PlotLayout.Narrow with { Height = PlotLayout.Narrow.Height * 0.6 };
    private readonly CancellationTokenSource leaving = new();
    private IReadOnlyList<PressureMoment> course = [];
    private IReadOnlyList<PressureMoment>? fileCourse;
    private string? fileProblem;
    private string lowest = string.Empty;
    private string mean = string.Empty;
    private string highest = string.Empty;

    /// <summary>The run.</summary>
    [Parameter, EditorRequired] public RunView View { get; set; } = null!;

    /// <summary>When the stretch that goes on began; null while none does.</summary>
    [Parameter] public DateTimeOffset? Since { get; set; }

    [Inject] private Gauges Gauges { get; set; } = null!;

    [Inject] private TimeProvider Time { get; set; } = null!;

    /// <summary>Whether something was typed that does not make a pressure yet.</summary>
    public bool IsUnfinished => !IsMeasured && Hand.IsUnfinished;

    private PressureByHand Hand => PressureByHand.Read(lowest, mean, highest);

    private PressureGauge? Gauge => View.Run.SievingUnitId is { } unit ? Gauges.Of(unit) : null;

    private bool IsMeasured => fileCourse is not null || course.Count > 1 || (Since is null && Gauge is { IsConnected: true });

    private string Source => fileCourse is not null ? "file" : IsMeasured ? "gauge" : "hand";

    private bool Outside => View.Method is { PressureLowest: { } from, PressureHighest: { } to }
        && ((course.Count > 0 && (course[^1].Pressure.Pascals < from.Pascals || course[^1].Pressure.Pascals > to.Pascals))
            || (Hand.Seen is { } seen && (seen.Lowest.Pascals < from.Pascals || seen.Highest.Pascals > to.Pascals)));

    private string Band => View.Method is { PressureLowest: { } from, PressureHighest: { } to } ? string.Create(CultureInfo.InvariantCulture, $" (method: {from.Kilopascals:0.0##} to {to.Kilopascals:0.0##})") : string.Empty;

    /// <summary>The pressure of the stretch as far as it is known now.</summary>
    public PressureSeen? Seen()
    {
        if (fileCourse is { } read)
        {
            return PressureSeen.Of(read, PressureSource.File);
        }

        var heard = Since is { } from && View.Run.SievingUnitId is { } unit ? Gauges.CourseSince(unit, from) : [];
        return heard.Count > 1 ? PressureSeen.Of(heard, PressureSource.Gauge) : Hand.Seen;
    }

    /// <inheritdoc />
    public void Dispose()
    {
        leaving.Cancel();
        leaving.Dispose();
    }

    /// <inheritdoc />
    protected override void OnParametersSet() => Look();

    /// <inheritdoc />
    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            _ = TickAsync(leaving.Token);
        }
    }

    private static string Words(PressureSeen seen) => $"lowest {Say.Kilopascals(seen.Lowest)}, mean {Say.Kilopascals(seen.Mean)}, highest {Say.Kilopascals(seen.Highest)}";

    private string Age(DateTimeOffset at) => Say.Seconds((int)Math.Max(0, (Time.GetUtcNow() - at).TotalSeconds));

    private void Look() => course = fileCourse ?? (Since is { } from && View.Run.SievingUnitId is { } unit ? Gauges.CourseSince(unit, from) : []);

    private async Task TickAsync(CancellationToken cancellation)
    {
        using var timer = new PeriodicTimer(TimeSpan.FromSeconds(1), Time);
        try
        {
            while (await timer.WaitForNextTickAsync(cancellation))
            {
                await InvokeAsync(() =>
                {
                    Look();
                    StateHasChanged();
                });
            }
        }
        catch (Exception over) when (over is OperationCanceledException or ObjectDisposedException)
        {
            // The step was left.
        }
    }

    private async Task ReadFileAsync(InputFileChangeEventArgs chosen)
    {
        (fileCourse, fileProblem) = (null, null);
        try
        {
            using var text = new StreamReader(chosen.File.OpenReadStream(PressureFile.Longest, leaving.Token), Encoding.UTF8);
            var reading = PressureFile.Read(await text.ReadToEndAsync(leaving.Token));
            fileProblem = reading.Refusal;
            fileCourse = reading.Refusal is null ? [.. reading.Samples.Select(sample => new PressureMoment((int)(sample.Seconds * 1_000), sample.Pressure))] : null;
        }
        catch (IOException)
        {
            fileProblem = "The file is larger than two megabytes, or was taken away while it was read. Export the time of this sieving alone.";
        }

        Look();
    }

    private void ForgetFile()
    {
        (fileCourse, fileProblem) = (null, null);
        Look();
    }
}

using System.Globalization;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Start;

/// <summary>
/// After an end that was none in order, a power cut, a crash or a kill: checks the whole record and every table beside it while the work goes on, and leaves an alert that says so and what was found.
/// An administrator says there what it was and what was done.
/// </summary>
internal sealed partial class AfterDisorder(DataFolder folder, RecordInspection inspection, AlertRaising alerts, ILogger<AfterDisorder> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (!folder.EndedInDisorder)
        {
            return;
        }

        try
        {
            await Task.Yield();
            var found = await inspection.InspectAsync(null, stoppingToken);
            await alerts.RaiseAsync(AlertKind.EndedInDisorder, Words(found), Guid.Empty, TimeSpan.Zero, stoppingToken);
        }
        catch (Exception fault) when (!stoppingToken.IsCancellationRequested)
        {
            NotChecked(log, fault);
        }
    }

    /// <summary>What is told.</summary>
    internal static string Words(RecordInspected found) =>
        "The last time this program did not end in order: power was cut, it crashed, or it was killed. What a screen had called saved is on the disk; whatever was under way then was not saved, and its page said so or was cut off. "
        + (found.Chain.Fault is { } fault ? $"The record was checked now and does NOT hold: {fault} Keep the database as it is."
        : found.Rows is { Faults.Count: > 0 } rows ? string.Create(CultureInfo.InvariantCulture, $"The record was checked now: its {found.Chain.Events} events hold together, but {rows.Faults.Count} rows are NOT as it left them. Keep the database as it is.")
        : string.Create(CultureInfo.InvariantCulture, $"The record was checked now: all {found.Chain.Events} events hold together, and {found.Rows?.Rows ?? 0} rows are as it left them."));

    [LoggerMessage(Level = LogLevel.Error, Message = "The record could not be checked after an end that was none in order.")]
    private static partial void NotChecked(ILogger log, Exception fault);
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Opens an investigation within the deed that showed the value; one out of specification, or determinations too far apart, hold the lot.</summary>
internal sealed class InvestigationOpening(ILotCertificates certificates) : IOutOfSpecification
{
    /// <inheritdoc />
    public async Task FoundAsync(DeedScope scope, Run run, bool apartOnly, string what, CancellationToken cancellation)
    {
        if (await scope.Data.OfSampleOf(run).AnyAsync(one => one.State != InvestigationState.Closed, cancellation))
        {
            return;
        }

        var lot = await scope.FindAsync<Lot>(run.LotId, "lot", cancellation);
        lot.HoldForInvestigation();
        await OpenAsync(scope, run, apartOnly ? InvestigationKind.DeterminationsApart : InvestigationKind.OutOfSpecification, what, cancellation);
    }

    /// <inheritdoc />
    public async Task OffTrendAsync(DeedScope scope, Run run, string what, CancellationToken cancellation)
    {
        var open = await scope.Data.Investigations.FirstOrDefaultAsync(one => one.State != InvestigationState.Closed && scope.Data.Set<Run>().Any(shown => shown.Id == one.RunId && shown.SampleId == run.SampleId), cancellation);
        if (open is null)
        {
            await OpenAsync(scope, run, InvestigationKind.OutOfTrend, what, cancellation);
        }
        else if (open.What != what)
        {
            // What another determination of the sample showed meanwhile is answered in the same case.
            scope.Data.Add(new InvestigationNote { Id = scope.NewId(), InvestigationId = open.Id, At = scope.Now, PersonName = scope.By.Name, Words = $"Run {run.Number}: {what}" });
        }
    }

    private async Task OpenAsync(DeedScope scope, Run run, InvestigationKind kind, string what, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(scope.Data, cancellation);
        var investigation = new Investigation
        {
            Id = scope.NewId(), Number = await scope.NextNumberAsync("I", cancellation), Kind = kind, LotId = run.LotId, LotNumber = run.LotNumber, RunId = run.Id, RunNumber = run.Number, What = what, OpenedAt = scope.Now,
            DueOn = WorkingDays.After(settings.LocalDay(scope.Now), settings.InvestigationWorkingDays),
        };
        scope.Data.Add(investigation);
        await certificates.HoldAsync(scope, new HoldingCase(HoldingCaseKind.Investigation, investigation.Id, investigation.Number), run.LotId, null, cancellation);
    }
}

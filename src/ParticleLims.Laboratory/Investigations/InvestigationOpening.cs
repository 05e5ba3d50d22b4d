using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Opens an investigation within the deed that showed the value; one out of specification, or determinations too far apart, hold the lot.</summary>
internal sealed class InvestigationOpening(ILotCertificates certificates) : IOutOfSpecification
{
    private const int MostWords = 2_000;

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
            InvestigationWork.Touch(scope, open);
        }
    }

    /// <inheritdoc />
    public async Task GivenUpAsync(DeedScope scope, Run run, string what, CancellationToken cancellation)
    {
        var words = what.Length <= MostWords ? what : what[..(MostWords - 1)] + "…";

        // Where a cause was found and signed for this run, its values are explained.
        var last = await scope.Data.OfSampleOf(run).OrderByDescending(one => one.OpenedAt).ThenByDescending(one => one.Number).FirstOrDefaultAsync(cancellation);
        if (last is { State: not InvestigationState.Closed })
        {
            scope.Data.Add(new InvestigationNote { Id = scope.NewId(), InvestigationId = last.Id, At = scope.Now, PersonName = scope.By.Name, Words = words });
            InvestigationWork.Touch(scope, last);
        }
        else if (last?.Conclusion != InvestigationConclusion.LaboratoryCause || run.PlannedAt > last.ClosedAt)
        {
            await FoundAsync(scope, run, apartOnly: false, words, cancellation);
        }
    }

    /// <inheritdoc />
    public async Task RequireExplainedAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        if (run.ReplacesRunId is null || run.RetestPlanId is not null)
        {
            return;
        }

        var unexplained = await scope.Data.OfSampleOf(run)
            .Where(one => one.Conclusion != InvestigationConclusion.LaboratoryCause && scope.Data.Set<Run>().Any(shown => shown.Id == one.RunId && shown.State == RunState.Abandoned))
            .Select(one => new { one.Number, one.RunNumber, one.State }).FirstOrDefaultAsync(cancellation);
        if (unexplained is not null)
        {
            throw new RefusedException("given-up-unexplained", $"Run {unexplained.RunNumber} was abandoned with a value out of specification. "
                + (unexplained.State == InvestigationState.Closed ? $"Investigation {unexplained.Number} found no cause in the laboratory: the value stands, and nothing is sieved in its place." : $"Nothing is sieved in its place until investigation {unexplained.Number} finds a cause in the laboratory; retests need its plan."));
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

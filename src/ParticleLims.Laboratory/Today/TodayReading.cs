using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Today;

/// <summary>Reads what waits, by few questions to the database and never more than one page of rows each.</summary>
public sealed class TodayReading(ReadPath reading)
{
    private static readonly RunState[] Begun = [RunState.InProgress, RunState.Returned];

    /// <summary>What waits now.</summary>
    /// <param name="actor">Who asks.</param>
    /// <param name="today">The laboratory's local day, against which inspections are due.</param>
    /// <param name="cancellation">Ends the reading.</param>
    public Task<TodayBoard> BoardAsync(Actor actor, DateOnly today, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, by, token) =>
        {
            var planned = data.Runs.Where(run => run.State == RunState.Planned);
            var firstPlanned = await RunReading.Rows(planned.OrderBy(run => run.PlannedAt).ThenBy(run => run.Number).Take(TodayBoard.Most)).ToListAsync(token);
            return new TodayBoard(
                await RunReading.Rows(data.Runs.Where(run => Begun.Contains(run.State)).OrderBy(run => run.StartedAt).Take(TodayBoard.Most)).ToListAsync(token),
                firstPlanned,
                firstPlanned.Count < TodayBoard.Most ? firstPlanned.Count : await planned.CountAsync(token),
                await RunReading.Rows(data.Runs.Where(run => run.State == RunState.Submitted).OrderByDescending(run => run.Findings).ThenBy(run => run.SubmittedAt).Take(TodayBoard.Most)).ToListAsync(token),
                await LotSearch.Rows(data, data.Lots.Where(lot => lot.State == LotState.AwaitingDisposition || lot.State == LotState.OnHold).OrderBy(lot => lot.BookedInAt).Take(TodayBoard.Most)).ToListAsync(token),
                await OpenInvestigationsAsync(data, token),
                await SignatureWaiting.OfAsync(data, token),
                await EquipmentWaiting.OfAsync(data, today, token),
                await DocumentWaiting.OfAsync(data, token),
                await AuthorisationWaiting.OfAsync(data, by, today, token))
            {
                Deliveries = by.May(Permission.IssueCertificates) ? await DeliveryReading.StuckAsync(data, TodayBoard.Most, token) : [],
            };
        }, cancellation);

    private static Task<List<OpenInvestigation>> OpenInvestigationsAsync(LaboratoryContext data, CancellationToken cancellation) =>
        data.Investigations.Where(one => one.State != InvestigationState.Closed).OrderBy(one => one.OpenedAt).Take(TodayBoard.Most)
            .Join(data.Lots, one => one.LotId, lot => lot.Id, (one, lot) => new OpenInvestigation(one.Id, one.Number, lot.Number, one.What, one.State, one.OpenedAt, one.DueOn))
            .ToListAsync(cancellation);
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Opens an investigation and holds the lot, within the deed that showed the value.</summary>
internal sealed class InvestigationOpening : IOutOfSpecification
{
    /// <inheritdoc />
    public async Task FoundAsync(DeedScope scope, Run run, string what, CancellationToken cancellation)
    {
        if (await scope.Data.OfSampleOf(run).AnyAsync(one => one.State != InvestigationState.Closed, cancellation))
        {
            return;
        }

        var lot = await scope.FindAsync<Lot>(run.LotId, "lot", cancellation);
        lot.HoldForInvestigation();
        scope.Data.Add(new Investigation
        {
            Id = scope.NewId(), Number = await scope.NextNumberAsync("I", cancellation), LotId = lot.Id, LotNumber = lot.Number, RunId = run.Id, RunNumber = run.Number, What = what, OpenedAt = scope.Now,
        });
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Who may do what in an investigation besides holding the permission.</summary>
internal static class InvestigationDuties
{
    /// <summary>Refuses whoever took part in the runs that are investigated. In a one-person laboratory it passes, and the record says so.</summary>
    public static async Task RequireOtherThanAnalystAsync(DeedScope scope, Investigation investigation, CancellationToken cancellation)
    {
        var shown = await scope.FindAsync<Run>(investigation.RunId, "run", cancellation);
        var runs = await scope.Data.Runs.Where(run => run.SampleId == shown.SampleId).Select(run => run.Id).ToListAsync(cancellation);
        var tookPart = await SeparationOfDuties.DidAsync(scope, runs, RunsTables.DeedFamily, cancellation);
        SeparationOfDuties.Require(scope, await AloneAsync(scope, cancellation), tookPart ? scope.PersonId : null, $"took part in the runs of sample {shown.SampleCode}");
    }

    /// <summary>Refuses whoever proposed what is to be approved. In a one-person laboratory it passes, and the record says so.</summary>
    public static async Task RequireOtherThanProposerAsync(DeedScope scope, Guid proposedBy, CancellationToken cancellation) =>
        SeparationOfDuties.Require(scope, await AloneAsync(scope, cancellation), proposedBy, "proposed this");

    private static async Task<bool> AloneAsync(DeedScope scope, CancellationToken cancellation) => (await SettingsKeeping.OfAsync(scope.Data, cancellation)).OnePersonLaboratory;
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A retest is made by somebody who took no part in the run that is investigated, from its start to its submission, unless its plan gave a reason. Giving it up is open to anybody.</summary>
internal static class RetestDuties
{
    public static async Task RequireAnotherPersonAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        if (!run.ByAnotherPerson)
        {
            return;
        }

        var first = await scope.Data.Runs.Where(one => one.SampleId == run.SampleId && one.RetestPlanId == null).Select(one => one.Id).ToListAsync(cancellation);
        if (await SeparationOfDuties.DidAsync(scope, first, RunsTables.DeedFamily, cancellation))
        {
            throw new RefusedException("retest-other-person", $"{scope.By.Name} took part in the run that is investigated. The retest plan asks for another technician.");
        }
    }
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Cautions;

/// <summary>Who has read which cautions. Those to stop at are not among them: they are confirmed every time.</summary>
public sealed class CautionReading(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind AcknowledgeDeed = new("cautions.acknowledge", "Cautions read", Permission.CarryOutRuns);

    /// <summary>What the person still has to acknowledge before a run with this powder by this procedure.</summary>
    public Task<List<Caution>> OpenAsync(Actor actor, Hazards? hazards, SievingProcedure procedure, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.CarryOutRuns, (data, by, token) => OpenAsync(data, by.PersonId!.Value, hazards, procedure, token), cancellation);

    /// <summary>Acknowledges what is still open for such a run; the present version of the texts stands in the record.</summary>
    public Task<int> AcknowledgeAsync(Actor actor, Hazards? hazards, SievingProcedure procedure, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AcknowledgeDeed, actor), async (scope, token) =>
        {
            var open = await OpenAsync(scope.Data, scope.PersonId, hazards, procedure, token);
            if (open.Count == 0)
            {
                throw new RefusedException("cautions-read", "All cautions for such a run were acknowledged already.");
            }

            scope.Data.AddRange(open.Select(caution => new CautionAcknowledgement { Id = scope.NewId(), PersonId = scope.PersonId, Code = caution.Code, TextsVersion = CautionTexts.Version, At = scope.Now }));
            scope.About("Person", scope.PersonId, FormattableString.Invariant($"{scope.By.Name}, texts version {CautionTexts.Version}"));
            return open.Count;
        }, cancellation);

    /// <summary>Refuses a run of somebody who has not read the cautions for it.</summary>
    /// <exception cref="RefusedException">Says which are open.</exception>
    internal static async Task RequireReadAsync(DeedScope scope, Hazards? hazards, SievingProcedure procedure, CancellationToken cancellation)
    {
        if (await OpenAsync(scope.Data, scope.PersonId, hazards, procedure, cancellation) is { Count: > 0 } open)
        {
            throw new RefusedException("cautions-open", $"{scope.By.Name} has not acknowledged the cautions {string.Join(", ", open.Select(caution => caution.Code))} yet. Read and acknowledge them first.", "cautions");
        }
    }

    private static async Task<List<Caution>> OpenAsync(LaboratoryContext data, Guid person, Hazards? hazards, SievingProcedure procedure, CancellationToken cancellation)
    {
        var read = await data.Set<CautionAcknowledgement>().Where(one => one.PersonId == person && one.TextsVersion == CautionTexts.Version).Select(one => one.Code).ToListAsync(cancellation);
        return [.. CautionChoice.ToAcknowledge(hazards, procedure).Where(caution => !read.Contains(caution.Code))];
    }
}

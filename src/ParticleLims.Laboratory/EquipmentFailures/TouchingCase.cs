using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>A case of failed equipment that touches a lot.</summary>
/// <param name="FailureId">The case.</param>
/// <param name="Number">Its number.</param>
/// <param name="EquipmentLabel">What failed.</param>
/// <param name="What">What was wrong with it.</param>
/// <param name="Decision">What was decided about the lot.</param>
/// <param name="Words">In the quality manager's words; null while nothing is decided.</param>
/// <param name="Counting">The numbers of the runs that used it and still count in a result.</param>
public sealed record TouchingCase(Guid FailureId, string Number, string EquipmentLabel, string What, TouchedLotDecision Decision, string? Words, IReadOnlyList<string> Counting)
{
    /// <summary>Why the lot's results cannot be relied on yet; null where the case does not stand in the way.</summary>
    public string? Blocker => Decision switch
    {
        TouchedLotDecision.Open => $"Case {Number}: the {EquipmentLabel} failed ({What}), and nothing is decided about this lot yet.",
        TouchedLotDecision.SievedAgain when Counting.Count > 0 => $"Case {Number}: the lot is to be sieved again, and {string.Join(", ", Counting)} still counts. Invalidate it with the case as its cause.",
        _ => null,
    };

    /// <summary>The cases that touch a lot, the oldest first.</summary>
    internal static async Task<IReadOnlyList<TouchingCase>> OfLotAsync(LaboratoryContext data, Guid lotId, CancellationToken cancellation)
    {
        var failures = await data.EquipmentFailures.AsNoTracking().Include(one => one.Lots.Where(lot => lot.LotId == lotId)).Include(one => one.Runs.Where(run => run.LotId == lotId)).AsSplitQuery()
            .Where(one => one.Lots.Any(lot => lot.LotId == lotId)).OrderBy(one => one.Number).ToListAsync(cancellation);
        if (failures.Count == 0)
        {
            return [];
        }

        var counting = await data.Runs.Where(run => run.LotId == lotId && run.State != RunState.Invalidated && run.State != RunState.Abandoned).Select(run => run.Id).ToListAsync(cancellation);
        return failures.ConvertAll(one => new TouchingCase(
            one.Id, one.Number, one.EquipmentLabel, one.What, one.Lots[0].Decision, one.Lots[0].Words, [.. one.Runs.Where(run => counting.Contains(run.RunId)).Select(run => run.RunNumber).Order(StringComparer.Ordinal)]));
    }
}

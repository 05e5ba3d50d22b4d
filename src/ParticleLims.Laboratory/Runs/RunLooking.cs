using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>
/// Keeps what a person saw on an empty sieve that weighs more or less than it usually does. From then on its empty weighing is taken, and the reviewer sees both.
/// </summary>
public sealed class RunLooking(WritePath writing)
{
    private static readonly DeedKind LookDeed = new("runs.look-at-sieve", "Sieve with an unusual empty mass looked at", Permission.CarryOutRuns, ReasonRequired: true);

    /// <summary>The sieve at a position, about to be weighed empty, was looked at.</summary>
    /// <param name="actor">Who looked.</param>
    /// <param name="runId">The run.</param>
    /// <param name="position">The sieve's position.</param>
    /// <param name="seen">What was seen and done: "brushed from below, mesh whole against the light".</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">The sieve is not the one to be weighed empty now, or has no history to differ from.</exception>
    public Task<bool> LookAsync(Actor actor, Guid runId, int position, string seen, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(LookDeed, actor, key, seen) { Asked = new { runId, position } }, async (scope, token) =>
        {
            var (run, method) = await RunWeighing.FindAsync(scope, runId, token);
            var sieve = run.Sieves.Find(one => one.Position == position) ?? throw new RefusedException("step-order", "The run has no such sieve. Look at the run anew.");
            if (!IsAboutToBeWeighed(run, method, position))
            {
                throw new RefusedException("step-order", $"The {sieve.Aperture} sieve is not to be weighed empty now. Look at the run anew: it may have gone on at another terminal.");
            }

            var usual = await TareHistory.UsualAsync(scope.Data, sieve.SieveId, token)
                ?? throw new RefusedException("tare-unknown", $"Sieve {sieve.SieveSerial} was weighed fewer than three times: there is no usual empty mass yet. Weigh it.");
            scope.Data.Add(new SieveLook
            {
                Id = scope.NewId(), RunId = run.Id, Position = position, Usual = usual, Seen = scope.Deed.Reason!.Trim(), At = scope.Now, PersonId = scope.PersonId, PersonName = scope.By.Name, Terminal = scope.Terminal,
            });
            scope.Data.Entry(run).State = EntityState.Modified;
            return true;
        }, cancellation);

    // Next in the plan, or weighed and still to be weighed again.
    private static bool IsAboutToBeWeighed(Run run, Methods.MethodVersion method, int position) =>
        RunPlan.Next(run, method) is { Kind: RunStepKind.Weigh, Weighing: WeighingKind.Empty } next && next.Position == position
        || run.Find(WeighingKind.Empty, position) is { } taken && RunPlan.MayWeighAgain(run, method, taken);
}

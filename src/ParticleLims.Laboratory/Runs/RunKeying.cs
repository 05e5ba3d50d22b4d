using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Takes weighings that a person keys, where the laboratory allows it. Each stays marked and is a finding for the reviewer.</summary>
public sealed class RunKeying(WritePath writing, IAuthority authority)
{
    private static readonly DeedKind KeyDeed = new("runs.key-mass", "Mass keyed by hand", Permission.CarryOutRuns);
    private static readonly DeedKind AgainDeed = new("runs.key-mass-again", "Mass keyed by hand in place of a weighing", Permission.CarryOutRuns, ReasonRequired: true);

    /// <summary>Keys the weighing of the step that is next.</summary>
    public Task<WeighingTaken> KeyAsync(Actor actor, Guid runId, RunStep step, KeyedMass keyed, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(KeyDeed, actor, key) { Asked = new { runId, step, keyed.First } }, async (scope, token) =>
        {
            var (run, method) = await RunWeighing.FindAsync(scope, runId, token);
            RunWeighing.RequireNext(run, method, step);
            return await RunWeighing.AddAsync(scope, run, method, step, await TakenAsync(scope, run, keyed, token), null, token);
        }, cancellation);

    /// <summary>Keys what stands in for a mistaken weighing, with a reason; both stay.</summary>
    public Task<WeighingTaken> KeyAgainAsync(Actor actor, Guid runId, Guid weighingId, KeyedMass keyed, string reason, string key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AgainDeed, actor, key, reason) { Asked = new { runId, weighingId, keyed.First } }, async (scope, token) =>
        {
            var (run, method) = await RunWeighing.FindAsync(scope, runId, token);
            var mistaken = RunWeighing.Mistaken(run, method, weighingId);
            return await RunWeighing.AddAsync(scope, run, method, RunStep.Of(mistaken), await TakenAsync(scope, run, keyed, token), mistaken, token);
        }, cancellation);

    private async Task<TakenReading> TakenAsync(DeedScope scope, Run run, KeyedMass keyed, CancellationToken cancellation)
    {
        if (!(await SettingsKeeping.OfAsync(scope.Data, cancellation)).KeyingAllowed)
        {
            throw new RefusedException("keying-off", "This laboratory takes masses from its balances only. Call whoever keeps the equipment; the administrator can allow keying in the settings.");
        }

        var balance = await scope.FindAsync<Balance>(run.BalanceId!.Value, "balance", cancellation);
        var mass = keyed.Read(balance);
        var confirmer = keyed.Confirmer is { } proof ? await ConfirmerAsync(scope, proof, cancellation) : null;
        var how = confirmer is null ? "twice" : $"confirmed by {confirmer.Name}";
        return new TakenReading(
            new BalanceReading(balance.Id, mass, KeyedMass.DecimalsOf(balance), Stable: true, $"keyed by hand, {how}: {keyed.First.Trim()} g", scope.Now) { WayIn = WayIn.KeyedByHand }, confirmer);
    }

    private async Task<Standing> ConfirmerAsync(DeedScope scope, SecretProof proof, CancellationToken cancellation)
    {
        var second = await authority.StandingOfAsync(scope.Data, new Actor(proof.Use(), scope.Deed.By.Terminal), cancellation);
        if (second.PersonId == scope.PersonId)
        {
            throw new RefusedException("keyed-alone", "A second person confirms, not the one who keys. Alone, key the mass twice instead.", "confirmer");
        }

        return second.May(Permission.CarryOutRuns) || second.May(Permission.ReviewRuns)
            ? second
            : throw new RefusedException("keyed-confirmer", $"{second.Name} neither carries out nor reviews runs. Ask somebody who does to read the display.", "confirmer");
    }
}

/// <summary>A reading about to become a weighing, with the second person who confirmed it, if one did.</summary>
internal sealed record TakenReading(BalanceReading Reading, Standing? Confirmer = null);

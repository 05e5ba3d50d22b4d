using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Allows one run to somebody who is not authorised for its method, over the quality manager's signature.</summary>
public sealed class AuthorisationOverriding(WritePath writing, ReadPath reading, TimeProvider clock)
{
    private static readonly RunState[] Open = [RunState.Planned, RunState.InProgress, RunState.Returned];

    // Not of the family of the runs: whoever allows a run took no part in it.
    private static readonly DeedKind AllowDeed = new("methods.allow-unauthorised", "Run allowed to somebody not authorised for its method", Permission.DecideLots, ReasonRequired: true);

    /// <summary>Allows it.</summary>
    /// <param name="actor">The quality manager.</param>
    /// <param name="runId">A run that is planned or goes on.</param>
    /// <param name="personId">Somebody who is not authorised now.</param>
    /// <param name="reason">Why it is right all the same.</param>
    /// <param name="proof">The password given again.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<Guid> AllowAsync(Actor actor, Guid runId, Guid personId, string reason, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AllowDeed, actor, Reason: reason), async (scope, token) =>
        {
            var run = await scope.FindAsync<Run>(runId, "run", token);
            scope.About("Run", run.Id, run.Label);
            if (!Open.Contains(run.State))
            {
                throw new RefusedException("run-state", $"Run {run.Number} is {run.State.Words()}; nothing is allowed for it any more.");
            }

            var person = await scope.FindAsync<Person>(personId, "person", token);
            var settings = await SettingsKeeping.OfAsync(scope.Data, token);
            SeparationOfDuties.Require(scope, settings.OnePersonLaboratory, person.Id, "would allow the run to themselves");
            var method = await scope.MethodOfAsync(run);
            var missing = method.AuthorisationNeeded ? await MethodAuthorising.MissingAsync(scope.Data, (person.Id, person.FullName), method.DocumentId, settings.LocalDay(scope.Now), token) : null;
            if (missing is null)
            {
                throw new RefusedException("authorisation-held", $"{person.FullName} may carry out run {run.Number} already; there is nothing to allow.");
            }

            // Its own subject, not the run: the certificate prints the signatures of the runs.
            var id = scope.NewId();
            var signature = scope.Sign(proof, FitnessOverride.Meaning, (nameof(AuthorisationOverride), id), AuthorisationOverride.WordsOf(person.FullName, run.Number, scope.Marked(scope.By.Name), missing, reason.Trim()));
            var given = new AuthorisationOverride
            {
                Id = id, RunId = run.Id, RunNumber = run.Number, PersonId = person.Id, PersonName = person.FullName, Missing = missing, Reason = reason.Trim(), GivenByName = scope.Marked(scope.By.Name), At = scope.Now, SignatureId = signature.Id,
            };
            scope.Data.Add(given);
            return id;
        }, cancellation);

    /// <summary>Why the actor may not carry out a run, and who can help; null where nothing stands in the way.</summary>
    public Task<string?> MissingAsync(Actor actor, Guid runId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, by, token) =>
        {
            var run = await data.Runs.Include(run => run.Operators).FirstOrDefaultAsync(one => one.Id == runId, token);
            if (run is null || by.PersonId is not { } person || await data.MethodVersions.SingleAsync(one => one.Id == run.MethodVersionId, token) is not { AuthorisationNeeded: true } method)
            {
                return null;
            }

            var now = clock.GetUtcNow();
            return (await RunAuthorisation.GroundAsync(data, run, method, (person, by.Name), ((await SettingsKeeping.OfAsync(data, token)).LocalDay(now), now), token)).Missing;
        }, cancellation);

    /// <summary>What was allowed for runs by a method, newest first.</summary>
    public Task<List<AuthorisationOverride>> OfMethodAsync(Actor actor, Guid methodId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Set<AuthorisationOverride>()
            .Where(one => data.Set<Run>().Any(run => run.Id == one.RunId && data.Set<MethodVersion>().Any(version => version.Id == run.MethodVersionId && version.DocumentId == methodId))).OrderByDescending(one => one.At).ToListAsync(token), cancellation);

    /// <summary>The runs by a method that are planned or go on.</summary>
    public Task<List<RunRow>> OpenRunsAsync(Actor actor, Guid methodId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => RunReading.Rows(data.Runs
            .Where(run => Open.Contains(run.State) && data.Set<MethodVersion>().Any(version => version.Id == run.MethodVersionId && version.DocumentId == methodId)).OrderBy(run => run.PlannedAt).Take(200)).ToListAsync(token), cancellation);
}

using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Whether somebody may start a run, take it over or go on with it, where its method asks for an authorisation.</summary>
internal static class RunAuthorisation
{
    /// <summary>Refuses whoever is not authorised for the run's method, where that asks for it; keeps on what it rests the first time.</summary>
    /// <exception cref="RefusedException">Says what is missing and who can give it.</exception>
    public static async Task TakeUpAsync(DeedScope scope, Run run, MethodVersion method, CancellationToken cancellation)
    {
        if (!method.AuthorisationNeeded)
        {
            return;
        }

        var known = run.Operators.Find(one => one.PersonId == scope.PersonId);
        var today = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).LocalDay(scope.Now);
        var ground = await GroundAsync(scope.Data, run, method, (scope.PersonId, scope.By.Name), (today, scope.Now), cancellation);
        if (ground.Missing is { } missing)
        {
            throw new RefusedException("not-authorised", missing);
        }

        if (known is null)
        {
            scope.Data.Add(new RunOperator { RunId = run.Id, PersonId = scope.PersonId, PersonName = scope.By.Name, Since = scope.Now, AuthorisationThen = ground.Snapshot!, BySignature = ground.BySignature });
        }
    }

    /// <summary>On what somebody may carry out a run now, or what is missing and who can help.</summary>
    public static async Task<(string? Snapshot, bool BySignature, string? Missing)> GroundAsync(
        LaboratoryContext data, Run run, MethodVersion method, (Guid Id, string Name) person, (DateOnly Today, DateTimeOffset Now) at, CancellationToken cancellation)
    {
        var known = run.Operators.Find(one => one.PersonId == person.Id);
        var newest = await MethodAuthorising.NewestAsync(data, person.Id, method.DocumentId, cancellation);
        if (newest is not null && (newest.HoldsOn(at.Today) || (known is { BySignature: false } && newest.WithdrawnAt is null && at.Now - known.Since < RunOperator.GoesOn)))
        {
            return (newest.Snapshot, false, null);
        }

        return await data.Set<AuthorisationOverride>().FirstOrDefaultAsync(one => one.RunId == run.Id && one.PersonId == person.Id, cancellation) is { } allowed
            ? (allowed.Words, true, null)
            : (null, false, $"{await MethodAuthorising.MissingAsync(data, person, method.DocumentId, at.Today, cancellation)} {await MethodAuthorising.RemedyAsync(data, cancellation)}");
    }
}

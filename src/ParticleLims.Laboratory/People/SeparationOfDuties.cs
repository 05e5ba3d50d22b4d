using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>Nobody reviews, approves or releases their own work, even through two roles.</summary>
public static class SeparationOfDuties
{
    /// <summary>Refuses when the person who acts also did the work. In a one-person laboratory it passes, and what the deed writes says so.</summary>
    /// <exception cref="RefusedException">The same person, in a laboratory of several.</exception>
    public static void Require(DeedScope scope, bool onePersonLaboratory, Guid? didTheWork, string work)
    {
        ArgumentNullException.ThrowIfNull(scope);
        if (scope.PersonId != didTheWork)
        {
            return;
        }

        if (!onePersonLaboratory)
        {
            throw new RefusedException("own-work", $"{scope.By.Name} {work}. A second person has to do this.");
        }

        scope.MarkOnePerson();
    }

    /// <summary>
    /// Whether the person who acts did any deed of these families on one of these things. The record is asked, so a deed that is added
    /// some day counts without being listed here.
    /// </summary>
    /// <param name="scope">The deed that is carried out now.</param>
    /// <param name="subjects">The things, such as the runs of a lot.</param>
    /// <param name="family">The first part of the deeds' codes with its dot: <c>runs.</c>.</param>
    /// <param name="cancellation">Ends the asking.</param>
    internal static Task<bool> DidAsync(DeedScope scope, IReadOnlyCollection<Guid> subjects, string family, CancellationToken cancellation)
    {
        var person = scope.PersonId;
        return scope.Data.Events.AnyAsync(one => subjects.Contains(one.SubjectId) && one.PersonId == person && one.Code.StartsWith(family), cancellation);
    }
}

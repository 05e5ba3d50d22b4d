using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.People;

/// <summary>Nobody reviews, approves or releases their own work, even through two roles.</summary>
public static class SeparationOfDuties
{
    /// <summary>Refuses when the person who acts also did the work. Answers whether the one-person setting let it pass, so that the record says so.</summary>
    /// <exception cref="RefusedException">The same person, in a laboratory of several.</exception>
    public static bool Require(DeedScope scope, bool onePersonLaboratory, Guid? didTheWork, string work)
    {
        ArgumentNullException.ThrowIfNull(scope);
        if (scope.PersonId != didTheWork)
        {
            return false;
        }

        return onePersonLaboratory ? true : throw new RefusedException("own-work", $"{scope.By.Name} {work}. A second person has to do this.");
    }
}

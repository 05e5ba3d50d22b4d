using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Today;

/// <summary>An authorisation for a method that ends soon, or has ended.</summary>
/// <param name="PersonId">Whose it is.</param>
/// <param name="PersonName">The name.</param>
/// <param name="MethodId">The method.</param>
/// <param name="MethodCode">Its code.</param>
/// <param name="ValidUntil">The last local day on which it holds.</param>
/// <param name="Over">Whether that day is past.</param>
public sealed record AuthorisationWaiting(Guid PersonId, string PersonName, Guid MethodId, string MethodCode, DateOnly ValidUntil, bool Over)
{
    /// <summary>How many days ahead the end is announced.</summary>
    public const int DaysAhead = 30;

    /// <summary>Those of everybody for whoever authorises, of oneself for everybody else; the most pressing first.</summary>
    internal static async Task<List<AuthorisationWaiting>> OfAsync(LaboratoryContext data, Standing by, DateOnly today, CancellationToken cancellation)
    {
        var (all, person, limit) = (by.May(Permission.AuthorisePeople), by.PersonId, today.AddDays(DaysAhead));
        var newest = data.Set<MethodAuthorisation>().Where(one => (all || one.PersonId == person) && data.Set<Person>().Any(whose => whose.Id == one.PersonId && whose.Active)
            && !data.Set<MethodAuthorisation>().Any(later => later.PersonId == one.PersonId && later.MethodId == one.MethodId && later.GivenAt > one.GivenAt));
        var ending = await newest.Where(one => one.WithdrawnAt == null && one.ValidUntil <= limit).OrderBy(one => one.ValidUntil).ThenBy(one => one.PersonName).Take(TodayBoard.Most).ToListAsync(cancellation);
        return ending.ConvertAll(one => new AuthorisationWaiting(one.PersonId, one.PersonName, one.MethodId, one.MethodCode, one.ValidUntil, one.ValidUntil < today));
    }
}

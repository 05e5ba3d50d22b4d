using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Methods;

/// <summary>A person who carries out runs.</summary>
public sealed record RunPerson(Guid Id, string FullName);

/// <summary>Gives and withdraws the authorisation to carry out runs by a method (ISO/IEC 17025, 6.2).</summary>
public sealed class MethodAuthorising(WritePath writing, ReadPath reading)
{
    /// <summary>The longest that one authorisation holds, in years: common practice, no source.</summary>
    public const int MostYears = 5;

    /// <summary>The most letters of the evidence.</summary>
    public const int LongestEvidence = 500;

    private static readonly DeedKind GiveDeed = new("methods.authorise", "Person authorised for a method", Permission.AuthorisePeople);
    private static readonly DeedKind WithdrawDeed = new("methods.withdraw-authorisation", "Authorisation for a method withdrawn", Permission.AuthorisePeople, ReasonRequired: true);
    private static readonly IReadOnlyList<Role> AtTheBench = [.. Enum.GetValues<Role>().Where(role => RolePermissions.All[role].Contains(Permission.CarryOutRuns))];

    /// <summary>Authorises a person, or renews it; answers the key of the new authorisation.</summary>
    /// <param name="actor">Who finds the person able.</param>
    /// <param name="personId">Somebody who carries out runs.</param>
    /// <param name="methodId">The method, in all its versions.</param>
    /// <param name="evidence">On what it rests.</param>
    /// <param name="validUntil">The last local day on which it holds.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<Guid> AuthoriseAsync(Actor actor, Guid personId, Guid methodId, string evidence, DateOnly validUntil, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(GiveDeed, actor), async (scope, token) =>
        {
            var person = await scope.Data.Set<Person>().Include(one => one.Roles).FirstOrDefaultAsync(one => one.Id == personId, token) ?? throw new RefusedException("not-found", "There is no such person.");
            var method = await scope.FindAsync<Method>(methodId, "method", token);
            scope.About("Method", method.Id, $"{person.FullName} for {method.Code}");
            var settings = await SettingsKeeping.OfAsync(scope.Data, token);
            Check(person, evidence, validUntil, settings.LocalDay(scope.Now));
            SeparationOfDuties.Require(scope, settings.OnePersonLaboratory, person.Id, "would authorise themselves");
            var given = new MethodAuthorisation
            {
                Id = scope.NewId(), PersonId = person.Id, PersonName = person.FullName, MethodId = method.Id, MethodCode = method.Code, GivenByName = scope.Marked(scope.By.Name), GivenAt = scope.Now, Evidence = evidence.Trim(), ValidUntil = validUntil,
            };
            scope.Data.Add(given);
            return given.Id;
        }, cancellation);

    /// <summary>Withdraws the newest authorisation of a person for a method; it stays readable.</summary>
    public Task<bool> WithdrawAsync(Actor actor, Guid authorisationId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(WithdrawDeed, actor, Reason: reason), async (scope, token) =>
        {
            var given = await scope.FindAsync<MethodAuthorisation>(authorisationId, "authorisation", token);
            scope.About("Method", given.MethodId, $"{given.PersonName} for {given.MethodCode}");
            DeedScope.RequireVersion(given, version, $"The authorisation of {given.PersonName} for {given.MethodCode}");
            if (given.WithdrawnAt is not null || await NewestAsync(scope.Data, given.PersonId, given.MethodId, token) is { } newest && newest.Id != given.Id)
            {
                throw new RefusedException("authorisation-past", "This authorisation does not count any more: it was renewed or withdrawn. Look at the method anew.");
            }

            given.Withdraw(scope.By.Name, scope.Now, reason.Trim());
            return true;
        }, cancellation);

    /// <summary>Every authorisation for a method, by name and newest first; the earlier ones stay readable.</summary>
    public Task<List<MethodAuthorisation>> OfMethodAsync(Actor actor, Guid methodId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeAuthorisations, (data, _, token) => InOrder(data.Set<MethodAuthorisation>().Where(one => one.MethodId == methodId)).ToListAsync(token), cancellation);

    /// <summary>Every authorisation of a person.</summary>
    public Task<List<MethodAuthorisation>> OfPersonAsync(Actor actor, Guid personId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeAuthorisations, (data, _, token) => InOrder(data.Set<MethodAuthorisation>().Where(one => one.PersonId == personId)).ToListAsync(token), cancellation);

    /// <summary>Those whom somebody may authorise: active people who carry out runs, by name.</summary>
    public Task<List<RunPerson>> PeopleAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeAuthorisations, (data, _, token) => data.Set<Person>().Where(person => person.Active && person.Roles.Any(role => AtTheBench.Contains(role.Role)))
            .OrderBy(person => person.FullName).Select(person => new RunPerson(person.Id, person.FullName)).ToListAsync(token), cancellation);

    /// <summary>The one that counts; null where there never was one.</summary>
    internal static Task<MethodAuthorisation?> NewestAsync(LaboratoryContext data, Guid personId, Guid methodId, CancellationToken cancellation) =>
        data.Set<MethodAuthorisation>().AsNoTracking().Where(one => one.PersonId == personId && one.MethodId == methodId).OrderByDescending(one => one.GivenAt).ThenByDescending(one => one.Id).FirstOrDefaultAsync(cancellation);

    /// <summary>What is missing; null where the newest authorisation holds.</summary>
    internal static async Task<string?> MissingAsync(LaboratoryContext data, (Guid Id, string Name) person, Guid methodId, DateOnly today, CancellationToken cancellation)
    {
        var newest = await NewestAsync(data, person.Id, methodId, cancellation);
        if (newest?.HoldsOn(today) == true)
        {
            return null;
        }

        var code = newest?.MethodCode ?? await data.Methods.Where(method => method.Id == methodId).Select(method => method.Code).SingleAsync(cancellation);
        var what = newest switch
        {
            null => "no authorisation was ever given",
            { WithdrawnAt: { } at } => string.Create(CultureInfo.InvariantCulture, $"it was withdrawn on {at.UtcDateTime:yyyy-MM-dd} by {newest.WithdrawnByName}: {newest.WithdrawnReason}"),
            _ => string.Create(CultureInfo.InvariantCulture, $"it ended on {newest.ValidUntil:yyyy-MM-dd}"),
        };
        return $"{person.Name} is not authorised for {code}: {what}.";
    }

    /// <summary>Who can help whoever is not authorised.</summary>
    internal static async Task<string> RemedyAsync(LaboratoryContext data, CancellationToken cancellation) =>
        $"{await GiversAsync(data, cancellation)} can authorise; a quality manager can allow this one run over a signature.";

    private static async Task<string> GiversAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var names = await data.Set<Person>().Where(person => person.Active && person.Roles.Any(role => role.Role == Role.LaboratoryManager)).OrderBy(person => person.FullName).Select(person => person.FullName).Take(3).ToListAsync(cancellation);
        return names.Count == 0 ? "A laboratory manager" : $"The laboratory manager ({string.Join(", ", names)})";
    }

    private static IQueryable<MethodAuthorisation> InOrder(IQueryable<MethodAuthorisation> those) => those.OrderBy(one => one.PersonName).ThenBy(one => one.MethodCode).ThenByDescending(one => one.GivenAt);

    private static void Check(Person person, string evidence, DateOnly until, DateOnly today)
    {
        if (!person.Active || !person.Roles.Exists(held => AtTheBench.Contains(held.Role)))
        {
            throw new RefusedException("authorisation-person", $"{person.FullName} does not carry out runs here. An administrator gives the role first.", "person");
        }

        if ((evidence?.Trim().Length ?? 0) is < 5 or > LongestEvidence)
        {
            throw new RefusedException("authorisation-evidence", $"Say on what the authorisation rests, in 5 to {LongestEvidence} letters: training, runs beside somebody experienced, a comparison.", "evidence");
        }

        if (until < today || until > today.AddYears(MostYears))
        {
            throw new RefusedException("authorisation-until", string.Create(CultureInfo.InvariantCulture, $"An authorisation holds until a day from today on, at most {MostYears} years ahead."), "validUntil");
        }
    }
}

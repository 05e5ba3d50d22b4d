using System.Globalization;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Web.Methods;

/// <summary>How an authorisation stands on a day, as chip and words.</summary>
internal static class AuthorisationWords
{
    /// <summary>The chip: its kind and its text.</summary>
    public static (string Kind, string Text) Chip(MethodAuthorisation one, DateOnly today) =>
        one.WithdrawnAt is not null ? ("off", "withdrawn")
        : !one.HoldsOn(today) ? ("bad", "ended")
        : one.ValidUntil <= today.AddDays(AuthorisationWaiting.DaysAhead) ? ("wait", "ends soon")
        : ("good", "authorised");

    /// <summary>A day as it is written.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

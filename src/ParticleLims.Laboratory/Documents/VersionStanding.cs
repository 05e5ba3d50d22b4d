using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Documents;

/// <summary>Where a version stands among the versions of its document at an instant. It follows from what was approved: nobody has to be there when a day begins.</summary>
public enum VersionStanding
{
    Draft,
    InApproval,
    /// <summary>Approved, and its day has not begun.</summary>
    AwaitsItsDay,
    InForce,
    /// <summary>A later version has begun.</summary>
    Superseded,
}

/// <summary>Which version counts at an instant.</summary>
public static class VersionStandings
{
    /// <summary>Where a version stands.</summary>
    /// <param name="version">The version.</param>
    /// <param name="versions">All versions of its document.</param>
    /// <param name="instant">When.</param>
    public static VersionStanding StandingAt(this ControlledVersion version, IEnumerable<ControlledVersion> versions, DateTimeOffset instant)
    {
        ArgumentNullException.ThrowIfNull(version);
        return version.State switch
        {
            DocumentState.Draft => VersionStanding.Draft,
            DocumentState.InApproval => VersionStanding.InApproval,
            DocumentState.Superseded => VersionStanding.Superseded,
            _ when !version.HasBegunAt(instant) => VersionStanding.AwaitsItsDay,
            _ when versions.Any(later => later.Number > version.Number && later.HasBegunAt(instant)) => VersionStanding.Superseded,
            _ => VersionStanding.InForce,
        };
    }

    /// <summary>The version of one document that is in force; null where none is.</summary>
    /// <param name="versions">All versions of the document.</param>
    /// <param name="instant">When.</param>
    public static TVersion? InForceAt<TVersion>(this IEnumerable<TVersion> versions, DateTimeOffset instant)
        where TVersion : ControlledVersion =>
        versions.Where(version => version.HasBegunAt(instant)).MaxBy(version => version.Number);

    /// <summary>The standing as people say it.</summary>
    public static string Words(this VersionStanding standing) => standing switch
    {
        VersionStanding.Draft => DocumentState.Draft.Words(),
        VersionStanding.InApproval => DocumentState.InApproval.Words(),
        VersionStanding.AwaitsItsDay => "approved, not yet in force",
        VersionStanding.InForce => DocumentState.InForce.Words(),
        VersionStanding.Superseded => DocumentState.Superseded.Words(),
        _ => throw new ArgumentOutOfRangeException(nameof(standing), standing, "Not a standing."),
    };

    /// <summary>The versions of every document that are in force, asked of the database.</summary>
    internal static IQueryable<TVersion> ThoseInForceAt<TVersion>(this IQueryable<TVersion> versions, DateTimeOffset instant)
        where TVersion : ControlledVersion =>
        versions.Where(version => version.State == DocumentState.InForce && version.InForceFrom <= instant
            && !versions.Any(later => later.DocumentId == version.DocumentId && later.Number > version.Number && later.State == DocumentState.InForce && later.InForceFrom <= instant));

    /// <summary>Where a stored version stands.</summary>
    internal static async Task<VersionStanding> StandingOfAsync<TVersion>(LaboratoryContext data, TVersion version, DateTimeOffset instant, CancellationToken cancellation)
        where TVersion : ControlledVersion =>
        version.StandingAt(await data.Set<TVersion>().AsNoTracking().Where(one => one.DocumentId == version.DocumentId).ToListAsync(cancellation), instant);
}

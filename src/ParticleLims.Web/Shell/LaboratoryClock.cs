using System.Globalization;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Web.Shell;

/// <summary>Instants in the laboratory's time zone, dates unambiguous: the one place where times become words.</summary>
public sealed class LaboratoryClock(SettingsKeeping settings, TimeProvider clock)
{
    private TimeZoneInfo? zone;

    /// <summary>Reads the zone once; call it before the others.</summary>
    public async Task PrepareAsync(CancellationToken cancellation = default) =>
        zone ??= await settings.FindAsync(cancellation) is { } found ? TimeZoneInfo.FindSystemTimeZoneById(found.TimeZone) : TimeZoneInfo.Utc;

    /// <summary>Now.</summary>
    public DateTimeOffset Now => clock.GetUtcNow();

    /// <summary>Today in the laboratory.</summary>
    public DateOnly Today => DateOnly.FromDateTime(Local(Now).DateTime);

    /// <summary>2026-11-25 10:41.</summary>
    public string Moment(DateTimeOffset? instant) => instant is { } at ? Local(at).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) : "–";

    /// <summary>2026-11-25 10:41 +01:00: as it stands beside a signature, whose time is read by people in other zones too.</summary>
    public string MomentWithZone(DateTimeOffset instant) => Local(instant).ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);

    /// <summary>2026-11-25 10:41:07 +01:00: as the record is read, where the hour that comes twice in autumn must not be mistaken.</summary>
    public string Stamp(DateTimeOffset instant) => Local(instant).ToString("yyyy-MM-dd HH:mm:ss zzz", CultureInfo.InvariantCulture);

    /// <summary>10:41:07.</summary>
    public string TimeOfDay(DateTimeOffset instant) => Local(instant).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>2026-11-25.</summary>
    public string Day(DateTimeOffset? instant) => instant is { } at ? Local(at).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "–";

    /// <summary>The laboratory's day at an instant.</summary>
    public DateOnly DayOf(DateTimeOffset instant) => DateOnly.FromDateTime(Local(instant).DateTime);

    /// <summary>The instant at which a day begins in the laboratory; where the clock is put forward over it, the first instant after.</summary>
    public DateTimeOffset StartOf(DateOnly day) => (zone ?? TimeZoneInfo.Utc).StartOf(day);

    /// <summary>The zone's name.</summary>
    public string ZoneName => (zone ?? TimeZoneInfo.Utc).Id;

    /// <summary>The instant that the laboratory's clock on the wall shows.</summary>
    public DateTimeOffset Instant(DateTime local)
    {
        var wall = DateTime.SpecifyKind(local, DateTimeKind.Unspecified);
        return new DateTimeOffset(wall, (zone ?? TimeZoneInfo.Utc).GetUtcOffset(wall)).ToUniversalTime();
    }

    private DateTimeOffset Local(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, zone ?? TimeZoneInfo.Utc);
}

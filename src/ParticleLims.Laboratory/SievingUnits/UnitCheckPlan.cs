using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>How often something is checked at a unit, and by how much it may be off.</summary>
public sealed class UnitCheckPlan
{
    public Guid UnitId { get; init; }
    public UnitCheckKind Kind { get; init; }

    /// <summary>Days from one check to the next, 1 to 1100; null where days do not count.</summary>
    public int? EveryDays { get; set; }

    /// <summary>Hours of sieving from one check to the next, 1 to 10 000; null where they do not count.</summary>
    public int? EveryHours { get; set; }

    /// <summary>By how much the figure may be off, percent of what was set, above 0 and at most 50; null where there is no figure.</summary>
    public decimal? TolerancePercent { get; set; }

    /// <summary>The usual plan, until the laboratory writes its own (common practice, no source; the maker's manual and the method come first).</summary>
    public static UnitCheckPlan Usual(Guid unitId, UnitCheckKind kind) => kind switch
    {
        UnitCheckKind.Timer => new() { UnitId = unitId, Kind = kind, EveryDays = 365, TolerancePercent = 1m },
        UnitCheckKind.NozzleSpeed or UnitCheckKind.Amplitude => new() { UnitId = unitId, Kind = kind, EveryDays = 365, TolerancePercent = 10m },
        UnitCheckKind.PressureGauge => new() { UnitId = unitId, Kind = kind, EveryDays = 365, TolerancePercent = 5m },
        UnitCheckKind.Clamps => new() { UnitId = unitId, Kind = kind, EveryDays = 365 },
        UnitCheckKind.Filter => new() { UnitId = unitId, Kind = kind, EveryDays = 90, EveryHours = 100 },
        _ => new() { UnitId = unitId, Kind = kind, EveryDays = 180 },
    };

    /// <summary>Refuses a plan by which nothing would ever be checked, or everything always.</summary>
    /// <exception cref="RefusedException">Says which member.</exception>
    internal void Check()
    {
        if (EveryDays is < 1 or > 1_100 || EveryHours is < 1 or > 10_000 || (EveryDays is null && EveryHours is null))
        {
            throw new RefusedException("interval", "It is checked after 1 to 1100 days, after 1 to 10000 hours of sieving, or after whichever comes first.", "everyDays");
        }

        if (Kind.Figure() is null != TolerancePercent is null || TolerancePercent is <= 0m or > 50m)
        {
            throw new RefusedException("tolerance", Kind.Figure() is null ? $"The {Kind.Words()} has no figure that could be off." : "It may be off by more than 0 and at most 50 % of what was set.", "tolerance");
        }
    }
}

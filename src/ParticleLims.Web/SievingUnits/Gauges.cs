using System.Collections.Concurrent;
using ParticleLims.Instruments.Pressures;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Web.SievingUnits;

/// <summary>The pressure gauges of the laboratory's sieving units: one link each, however many screens look at it.</summary>
public sealed class Gauges(TimeProvider clock) : IAsyncDisposable
{
    private readonly ConcurrentDictionary<Guid, PressureGauge> all = [];

    /// <summary>The gauge of a unit that is listened to; null where there is none.</summary>
    public PressureGauge? Of(Guid unitId) => all.GetValueOrDefault(unitId);

    /// <summary>The course of the pressure at a unit since a moment, in ms since its first sample there; empty where nothing was heard.</summary>
    public IReadOnlyList<PressureMoment> CourseSince(Guid unitId, DateTimeOffset from)
    {
        var points = Of(unitId)?.Between(from, clock.GetUtcNow()) ?? [];
        return [.. points.Select(point => new PressureMoment((int)(point.At - points[0].At).TotalMilliseconds, point.Pressure))];
    }

    /// <summary>Listens to exactly these units' gauges; one whose address changed is reached for anew.</summary>
    public async Task FollowAsync(IReadOnlyList<SievingUnit> units)
    {
        ArgumentNullException.ThrowIfNull(units);
        foreach (var unit in units)
        {
            var address = new GaugeAddress(unit.GaugeHost!, unit.GaugePort!.Value, unit.GaugeUnit);
            if (all.TryGetValue(unit.Id, out var known) && known.Address == address)
            {
                continue;
            }

            all[unit.Id] = new PressureGauge(address, clock);
            if (known is not null)
            {
                await known.DisposeAsync();
            }
        }

        foreach (var gone in all.Keys.Except(units.Select(unit => unit.Id)).ToList())
        {
            if (all.TryRemove(gone, out var left))
            {
                await left.DisposeAsync();
            }
        }
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync() => await FollowAsync([]);
}
